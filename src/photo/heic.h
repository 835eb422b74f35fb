// HEIC photos through libheif, which is loaded only when such a photo is there. Only heic.cpp knows it.
#pragma once

#include <memory>
#include <string_view>

#include "photo/photo.h"
#include "photo/rows.h"

namespace soundsill::photo {

struct HeicSize {
  int width = 0, height = 0;  ///< upright: the container turns its picture itself
};
/// Reads the container, decodes nothing. Says which package is needed when the library is not installed.
[[nodiscard]] Outcome<HeicSize> heic_size(std::string_view bytes);

[[nodiscard]] std::unique_ptr<Rows> heic_rows(std::string_view bytes);

}  // namespace soundsill::photo
