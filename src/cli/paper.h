// From a loaded case to the bytes of a paper.
#pragma once

#include <optional>
#include <string>

#include "cli/load.h"
#include "pdf/pdf.h"

namespace soundsill::cli {

enum class Paper { packet, findings, estimate, drawing };

/// How a paper is made.
struct Making {
  bool draft = false;
  bool bare = false;  ///< without the data inside
  pdf::Flavour flavour = pdf::Flavour::pdfa_3a;
  unsigned threads = 1;  ///< that may decode photos
};

struct Made {
  std::string subject;  ///< which case and revision it is, or that it is a draft
  std::string bytes;    ///< of the PDF
};

[[nodiscard]] document::Document paper_document(const Loaded& loaded, const Shared& shared, Paper which, bool draft);

/// Adds the fault of a paper too heavy to be mailed.
void weigh(Loaded& loaded, const page::FileStyle& limits, std::size_t bytes);

[[nodiscard]] pdf::Options pdf_options(pdf::Flavour flavour);

/// Lays a paper out and writes it; photos are reduced until the template's aim is met. Adds the faults that show only
/// then: a letter that no face has, letters too small, a word of the data without a phrase, a file too heavy. Nothing
/// when a photo turned out broken: the paper has to be made again without it.
[[nodiscard]] std::optional<Made> set_paper(Loaded& loaded, const Shared& shared, const document::Document& paper,
                                            const page::Template& look, const pdf::Options& options, unsigned threads);

/// The packet or a part of it, with a last look at what it says.
[[nodiscard]] Made make_paper(Loaded& loaded, const Shared& shared, Paper which, const Making& making);

}  // namespace soundsill::cli
