// A sheet of marks as SVG: text stays text, links stay links, and the alternative text of its figures describes it.
#pragma once

#include <string>
#include <string_view>

#include "pages/pages.h"

namespace soundsill::svg {

struct Options {
  std::string producer;    ///< "soundsill 0.1.0"; empty leaves it out
  std::string prefix;      ///< put before the ids that only the picture itself uses
  bool standalone = true;  ///< a file of its own, not a part of a page
};

/// The first sheet of the pages. Deterministic. Images are not drawn: a drawing has none.
[[nodiscard]] std::string write(const page::Pages& pages, const Options& options);

/// How the subject of a picture with a producer begins in the file, and what all of ours say of their origin.
[[nodiscard]] std::string subject_opening(const std::string& subject);
[[nodiscard]] std::string_view origin();

}  // namespace soundsill::svg
