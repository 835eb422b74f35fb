// What must hold for any Pages, and a readable listing of them.
#pragma once

#include <string>
#include <vector>

#include "document/document.h"
#include "pages/pages.h"
#include "template/template.h"

namespace soundsill::page {

/// A text without white space and soft hyphens, which lines may add or take away.
[[nodiscard]] std::string without_white(std::string_view text);

/// Strings of the document that the pages do not say, each as often as it is missing. White space does not count; what
/// a Table or Figure says to those who cannot see it does.
[[nodiscard]] std::vector<std::string> lost_strings(const document::Document& document, const Pages& pages);

/// Marks that reach over the edge of their sheet, in words.
[[nodiscard]] std::vector<std::string> off_sheet(const Pages& pages);

/// Texts that lie on other texts, in words. The word across a draft does not count.
[[nodiscard]] std::vector<std::string> overlapping_texts(const Pages& pages);

/// Texts outside drawings that reach over the margins of their sheet, a rule, or the edge of a box that they stand in.
[[nodiscard]] std::vector<std::string> leaving_texts(const Pages& pages, const SheetStyle& sheet);

/// Strings of the document, in its order, that do not follow one another when the pages are read in the order of their
/// tree. The sections must be in the order of the template.
[[nodiscard]] std::vector<std::string> out_of_order(const document::Document& document, const Pages& pages);

/// Links to nowhere, links without words, nodes out of order, headings that skip a level, in words.
[[nodiscard]] std::vector<std::string> broken_tree(const Pages& pages);

/// One line a mark, with its place in points and its role.
[[nodiscard]] std::string dump(const Pages& pages);

}  // namespace soundsill::page
