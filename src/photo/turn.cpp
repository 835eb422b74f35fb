// Serves photo/pixels.h.
#include <algorithm>

#include "photo/pixels.h"

namespace soundsill::photo {

namespace {

struct Place {
  int x;
  int y;
};

/// Where the upright pixel (x, y) is stored, in a photo whose last column and row are `right` and `bottom`.
Place stored_at(int x, int y, int right, int bottom, int orientation) {
  switch (orientation) {
    case 2:
      return {right - x, y};
    case 3:
      return {right - x, bottom - y};
    case 4:
      return {x, bottom - y};
    case 5:
      return {y, x};
    case 6:
      return {y, bottom - x};
    case 7:
      return {right - y, bottom - x};
    case 8:
      return {right - y, x};
    default:
      return {x, y};
  }
}

}  // namespace

Pixels turn_upright(Pixels pixels, int orientation) {
  if (orientation < 2 || orientation > 8) return pixels;
  const bool lying = orientation >= 5;
  const auto size = static_cast<std::size_t>(pixels.channels);
  Pixels upright(lying ? pixels.height : pixels.width, lying ? pixels.width : pixels.height, pixels.channels);
  std::uint8_t* to = upright.bytes.data();
  for (int y = 0; y < upright.height; ++y)
    for (int x = 0; x < upright.width; ++x) {
      const Place from = stored_at(x, y, pixels.width - 1, pixels.height - 1, orientation);
      const std::size_t at =
          static_cast<std::size_t>(from.y) * pixels.row_size() + static_cast<std::size_t>(from.x) * size;
      to = std::copy_n(pixels.bytes.data() + at, size, to);
    }
  return upright;
}

}  // namespace soundsill::photo
