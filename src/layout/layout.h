// A Document in the look of a Template becomes Pages.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "diagnostics/diagnostics.h"
#include "document/document.h"
#include "font/font.h"
#include "pages/pages.h"
#include "setting/hyphens.h"
#include "template/template.h"

namespace soundsill::page {

/// Lays out every word of the document: nothing is lost, nothing leaves the sheet. `faces` holds the faces of the
/// template by key and must outlive the Pages. A letter that no face has is a `no_letter` fault. Styles that ask for
/// hyphens get them when there is a dictionary. Of photos only the headers are read: `develop` does the rest.
[[nodiscard]] Pages lay_out(const document::Document& document, const Template& look, const font::Faces& faces,
                            Faults& faults, const Hyphens* hyphens = nullptr);

/// A few blocks on one sheet that is just as tall as they are, without running head and foot. What says what the file
/// is comes from the document. Links may lead to `ids` besides what stands in the document.
[[nodiscard]] Pages on_one_sheet(const std::vector<document::Block>& blocks, const document::Document& document,
                                 const Template& look, const font::Faces& faces, Faults& faults,
                                 const std::set<std::string, std::less<>>& ids = {});

/// What is wrong with photos, by their keys in Document::photos.
using PhotoTroubles = std::map<std::string, std::string>;

/// Decodes the photos of laid-out pages and stores them by a step of the template, counted from 0: each later one has
/// fewer pixels or a lower quality; nothing moves. Each photo is decoded once, on as many threads as are lent.
[[nodiscard]] PhotoTroubles develop(Pages& pages, const document::Document& document, const Template& look,
                                    std::size_t step = 0, unsigned threads = 1);

}  // namespace soundsill::page
