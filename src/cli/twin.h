// Papers in other forms than PDF, and whether a file that stands there may give way.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "cli/paper.h"

namespace soundsill::cli {

/// The same document as one page of HTML. Adds the faults of photos that it cannot show.
[[nodiscard]] Made html_paper(Loaded& loaded, const Shared& shared, Paper which, bool draft);
/// All drawings of a case, one under the other, as one SVG.
[[nodiscard]] Made svg_drawing(const Loaded& loaded, const Shared& shared, bool draft);

/// A paper says in itself which case and revision it is, or that it is a draft. Drafts give way freely, a final paper
/// to its own revision; whatever else stands there stays.
enum class Standing { nothing, same, another, foreign };
[[nodiscard]] Standing standing(const std::string& path, const std::string& subject, const std::string& draft_word,
                                const Files& files);

/// Pictures of all pages into a folder of their own, NAME-NUMBER.png, by poppler's pdftoppm. The folder is whole or not
/// there; one that holds anything but such pictures stays. Gives what went wrong, or an empty text.
[[nodiscard]] std::string write_pictures(const std::string& folder,
                                         const std::vector<std::pair<std::string, std::string>>& pdfs_by_name);

}  // namespace soundsill::cli
