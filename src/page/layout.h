// A Document in the look of a Template becomes Pages.
#pragma once

#include "diagnostics/diagnostics.h"
#include "document/document.h"
#include "font/font.h"
#include "page/pages.h"
#include "page/template.h"

namespace soundsill::page {

/// Lays out every word of the document: nothing is lost, nothing leaves the sheet. `faces` holds the faces of the
/// template by key and must outlive the Pages. A letter that no face has is a `no_letter` fault.
[[nodiscard]] Pages lay_out(const document::Document& document, const Template& look, const font::Faces& faces,
                            Faults& faults);

/// Stores the photos of laid-out pages by another step of the template, counted from 0: fewer pixels or a lower
/// quality; nothing moves. False when there is no such step, or no photo.
bool lighten(Pages& pages, const document::Document& document, const Template& look, std::size_t step);

}  // namespace soundsill::page
