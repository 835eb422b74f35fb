// Pages to the bytes of a PDF: PDF/A-3a and PDF/UA-1, or PDF/A-1a; tagged, every face embedded. Knows no trade.
#pragma once

#include <optional>
#include <string>

#include "pages/pages.h"

namespace soundsill::pdf {

enum class Flavour {
  pdfa_3a,  ///< PDF 1.7, PDF/UA-1 too; may carry a file
  pdfa_1a,  ///< PDF 1.4, for archives that ask for it; carries no file
};

/// A file inside the PDF, such as the data that it was made from.
struct Attachment {
  std::string name;  ///< ASCII, without folders
  std::string bytes;
  std::string description;
  std::string mime;  ///< "application/json"
};

struct Options {
  Flavour flavour = Flavour::pdfa_3a;
  std::string producer = "soundsill";
  std::optional<Attachment> attachment;
};

/// The same pages and options always give the same bytes. Throws std::invalid_argument when the pages cannot become a
/// sound file (a mark off its sheet, a letter without a glyph, a link to nowhere, a figure without words, ...): that is
/// a fault of whoever laid them out, never of a case.
[[nodiscard]] std::string write(const page::Pages& pages, const Options& options);

/// How the metadata of a file begins to give its subject: bytes to look for in a file that `write` made.
[[nodiscard]] std::string subject_opening(const std::string& subject);

}  // namespace soundsill::pdf
