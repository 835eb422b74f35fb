// `soundsill review`: the owner's questions, asked of many cases.
#pragma once

#include <string>
#include <vector>

#include "cli/commands.h"
#include "listing/review.h"

namespace soundsill::cli {

struct ReviewRequest {
  Where where;
  std::vector<std::string> paths;
  std::string list;    ///< a file with more of them, `-` for standard input; or empty
  bool merge = false;  ///< the paths are lists that `review --format json` wrote
  std::string format = "text";
  std::vector<std::string> only;  ///< words of listing::attention_words, or `ready`; every case when empty
  std::string sort;               ///< file, number, closing, holds, renewal, errors
  int within = 7;                 ///< days ahead
  int jobs = 0;                   ///< threads; 0 for one a core
  bool strict = false, progress = false, color = false;
};

[[nodiscard]] ExitStatus review_cases(const ReviewRequest& request);

}  // namespace soundsill::cli
