#include <algorithm>
#include <cassert>

#include "photo/pixels.h"

namespace soundsill::photo {

// Lengths are counted so that all edges are whole numbers: an old pixel is `new` units long, a new one `old` units.
// The largest sum is 255 x old width x old height, far inside 64 bits.

Shrinker::Shrinker(int width, int height, int channels, int new_width, int new_height)
    : width_(width), height_(height), result_(new_width, new_height, channels) {
  assert(new_width >= 1 && new_width <= width && new_height >= 1 && new_height <= height);
  narrow_.resize(result_.row_size());
  sums_.resize(result_.row_size());
}

void Shrinker::squeeze(const std::uint8_t* row) {
  const auto channels = static_cast<std::size_t>(result_.channels);
  const auto unit = static_cast<std::uint64_t>(result_.width);
  const auto full = static_cast<std::uint64_t>(width_);
  std::fill(narrow_.begin(), narrow_.end(), 0);
  std::uint64_t filled = 0;
  std::uint64_t* to = narrow_.data();
  for (int x = 0; x < width_; ++x, row += channels) {
    const std::uint64_t here = std::min(unit, full - filled);
    for (std::size_t c = 0; c < channels; ++c) to[c] += here * row[c];
    filled += here;
    if (filled < full) continue;
    to += channels;
    filled = unit - here;
    if (filled > 0)
      for (std::size_t c = 0; c < channels; ++c) to[c] += filled * row[c];
  }
}

void Shrinker::pour(std::uint64_t share) {
  for (std::size_t i = 0; i < sums_.size(); ++i) sums_[i] += share * narrow_[i];
  filled_ += share;
}

void Shrinker::emit() {
  const std::uint64_t area = static_cast<std::uint64_t>(width_) * static_cast<std::uint64_t>(height_);
  std::uint8_t* to = result_.bytes.data() + result_.row_size() * static_cast<std::size_t>(made_++);
  for (std::uint64_t& sum : sums_) {
    *to++ = static_cast<std::uint8_t>((sum + area / 2) / area);
    sum = 0;
  }
  filled_ = 0;
}

void Shrinker::add(const std::uint8_t* row) {
  const auto unit = static_cast<std::uint64_t>(result_.height);
  const auto full = static_cast<std::uint64_t>(height_);
  squeeze(row);
  const std::uint64_t here = std::min(unit, full - filled_);
  pour(here);
  if (filled_ < full) return;
  emit();
  if (here < unit) pour(unit - here);
}

}  // namespace soundsill::photo
