// The two facts of a camera's notes that change how pixels look. All others are never read.
#pragma once

#include <string_view>

namespace soundsill::photo {

struct Exif {
  int orientation = 1;        ///< 1 to 8
  bool wide_colours = false;  ///< opRGB, the wider of the two colour spaces a camera can write without a profile
};

/// Reads an EXIF block, which begins with its byte order ("II" or "MM"). Whatever does not make sense is passed over.
[[nodiscard]] Exif read_exif(std::string_view block);

}  // namespace soundsill::photo
