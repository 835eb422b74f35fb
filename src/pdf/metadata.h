// What the file says of itself: once for old readers (Info), once for new ones (XMP), letter by letter the same.
#pragma once

#include <string>

#include "pages/pages.h"
#include "pdf/pdf.h"

namespace soundsill::pdf {

/// Entries of the Info dictionary.
[[nodiscard]] std::string info(const page::Pages& pages, const Options& options);
[[nodiscard]] std::string xmp(const page::Pages& pages, const Options& options);
/// "D:20250131000000Z" of YYYY-MM-DD; empty when there is no date. Throws std::invalid_argument on anything else.
[[nodiscard]] std::string pdf_date(const std::string& iso);

}  // namespace soundsill::pdf
