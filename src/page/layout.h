// A Document in the look of a Template becomes Pages.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "diagnostics/diagnostics.h"
#include "document/document.h"
#include "font/font.h"
#include "page/hyphens.h"
#include "page/pages.h"
#include "page/template.h"

namespace soundsill::page {

/// Lays out every word of the document: nothing is lost, nothing leaves the sheet. `faces` holds the faces of the
/// template by key and must outlive the Pages. A letter that no face has is a `no_letter` fault. Styles that ask for
/// hyphens get them when there is a dictionary.
[[nodiscard]] Pages lay_out(const document::Document& document, const Template& look, const font::Faces& faces,
                            Faults& faults, const Hyphens* hyphens = nullptr);

/// A few blocks on one sheet that is just as tall as they are, without running head and foot. What says what the file
/// is comes from the document. Links may lead to `ids` besides what stands in the document.
[[nodiscard]] Pages on_one_sheet(const std::vector<document::Block>& blocks, const document::Document& document,
                                 const Template& look, const font::Faces& faces, Faults& faults,
                                 const std::set<std::string, std::less<>>& ids = {});

/// Stores the photos of laid-out pages by another step of the template, counted from 0: fewer pixels or a lower
/// quality; nothing moves. False when there is no such step, or no photo.
bool lighten(Pages& pages, const document::Document& document, const Template& look, std::size_t step);

}  // namespace soundsill::page
