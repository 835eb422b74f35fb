// Papers as files: what their bytes are in each format, and whether a file that stands there may give way.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "cli/load.h"

namespace soundsill::cli {

enum class Format { pdf, html, svg };

/// A finished paper.
struct PaperFile {
  Format format = Format::pdf;
  std::string bytes;
  std::string subject;  ///< names case and revision, or says that it is a draft
};

/// `flavor` is that of PDF/A, "1a" or "3a".
[[nodiscard]] PaperFile pdf_file(const page::Pages& pages, const std::string& flavor);
[[nodiscard]] PaperFile html_file(const Loaded& loaded, const Shared& shared, Paper which, bool draft);
/// All drawings of a case, one under the other.
[[nodiscard]] PaperFile svg_file(const Loaded& loaded, const Shared& shared, bool draft);

/// A paper says in itself which case and revision it is, or that it is a draft. Drafts give way freely, a final paper
/// to its own revision; whatever else stands there stays.
enum class Standing { nothing, same, another, foreign };
[[nodiscard]] Standing standing(const std::string& path, const PaperFile& paper, const std::string& draft_word,
                                const Files& files);

/// Pictures of all pages into a folder of their own, PAPER-NUMBER.png, by poppler's pdftoppm. The folder is whole or
/// not there; one that holds anything but such pictures stays. Gives what went wrong, or an empty text.
[[nodiscard]] std::string write_pictures(const std::string& folder,
                                         const std::vector<std::pair<std::string, std::string>>& pdfs_by_name);

}  // namespace soundsill::cli
