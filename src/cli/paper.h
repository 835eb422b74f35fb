// From a loaded case to the bytes of a paper.
#pragma once

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

/// Decodes the photos of laid-out pages. A broken one is a fault of the case and is taken from it: false says that the
/// paper has to be made again without it.
[[nodiscard]] bool develop(Loaded& loaded, page::Pages& pages, const document::Document& paper,
                           const page::Template& look, unsigned threads);
/// Writes pages, with ever lighter photos until the template's aim is met.
[[nodiscard]] std::string write_light(page::Pages& pages, const document::Document& paper, const page::Template& look,
                                      const pdf::Options& options, unsigned threads);

/// Lays a paper out and writes it; photos are reduced until the template's aim is met. Adds the faults that show only
/// then: a letter that no face has, a file too heavy to be mailed, a word of the data without a phrase.
[[nodiscard]] Made make_paper(Loaded& loaded, const Shared& shared, Paper which, const Making& making);

}  // namespace soundsill::cli
