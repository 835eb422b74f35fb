// Serves photo/pixels.h.
#include <algorithm>
#include <array>
#include <cassert>

#include "photo/pixels.h"

namespace soundsill::photo {
// Lengths are counted so that all edges are whole numbers: an old pixel is `new` units long, a new one `old` units.
// The largest sum is 255 x old width x old height, far inside 64 bits.

Shrinker::Shrinker(int width, int height, int channels, int new_width, int new_height)
    : width_(width), height_(height), result_(new_width, new_height, channels) {
  assert(new_width >= 1 && new_width <= width && new_height >= 1 && new_height <= height);
  assert(channels == 1 || channels == 3 || channels == 4);
  area_ = static_cast<std::uint64_t>(width) * static_cast<std::uint64_t>(height);
  inverse_ = ((Wide{1} << 64U) + area_ - 1) / area_;
  columns_.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(channels));
}

std::uint8_t Shrinker::mean(std::uint64_t sum) const {
  // The quotient, by a product with 2^64 / area: exact while 256 x area^2 is below 2^64, which max_pixels sees to.
  return static_cast<std::uint8_t>((sum + area_ / 2) * inverse_ >> 64U);
}

/// Rows first: that is the same for all columns, and processors take many at once.
void Shrinker::pour(const std::uint8_t* row, std::uint32_t share) {
  std::uint32_t* const to = columns_.data();
  for (std::size_t i = 0; i < columns_.size(); ++i) to[i] += share * row[i];
}

/// The columns of one new row, squeezed to its width. The compiler knows the number of channels.
template <std::size_t channels>
void Shrinker::squeeze() {
  const auto unit = static_cast<std::uint64_t>(result_.width);
  const auto full = static_cast<std::uint64_t>(width_);
  std::uint8_t* to = result_.bytes.data() + result_.row_size() * static_cast<std::size_t>(made_++);
  const std::uint32_t* from = columns_.data();
  std::array<std::uint64_t, channels> sum{};
  std::uint64_t filled = 0;
  for (int x = 0; x < width_; ++x, from += channels) {
    if (filled + unit < full) {
      for (std::size_t c = 0; c < channels; ++c) sum[c] += unit * from[c];
      filled += unit;
      continue;
    }
    const std::uint64_t here = full - filled, rest = unit - here;
    for (std::size_t c = 0; c < channels; ++c) {
      *to++ = mean(sum[c] + here * from[c]);
      sum[c] = rest * from[c];
    }
    filled = rest;
  }
}

void Shrinker::finish_row() {
  switch (result_.channels) {
    case 1:
      squeeze<1>();
      break;
    case 3:
      squeeze<3>();
      break;
    default:
      squeeze<4>();
  }
  std::fill(columns_.begin(), columns_.end(), 0);
}

void Shrinker::add(const std::uint8_t* row) {
  const auto unit = static_cast<std::uint32_t>(result_.height);
  const auto full = static_cast<std::uint32_t>(height_);
  const std::uint32_t here = std::min(unit, full - filled_), rest = unit - here;
  pour(row, here);
  filled_ += here;
  if (filled_ < full) return;
  finish_row();
  filled_ = rest;
  if (rest > 0) pour(row, rest);
}

}  // namespace soundsill::photo
