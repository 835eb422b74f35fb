#include <catch2/catch.hpp>
#include <cstdint>
#include <random>

#include "photo/pixels.h"

using namespace soundsill::photo;

namespace {

/// The mean of the area that a new pixel covers, worked out from the definition: edges at whole numbers when an old
/// pixel is new_width x new_height.
int mean(const Pixels& old, int new_width, int new_height, int x, int y, int channel) {
  const auto overlap = [](long a, long b, long c, long d) { return std::max(0L, std::min(b, d) - std::max(a, c)); };
  std::uint64_t sum = 0;
  for (int v = 0; v < old.height; ++v)
    for (int u = 0; u < old.width; ++u) {
      const long w =
          overlap(long{x} * old.width, long{x + 1} * old.width, long{u} * new_width, long{u + 1} * new_width);
      const long h =
          overlap(long{y} * old.height, long{y + 1} * old.height, long{v} * new_height, long{v + 1} * new_height);
      const auto at =
          (static_cast<std::size_t>(v) * static_cast<std::size_t>(old.width) + static_cast<std::size_t>(u)) *
              static_cast<std::size_t>(old.channels) +
          static_cast<std::size_t>(channel);
      sum += static_cast<std::uint64_t>(w * h) * old.bytes[at];
    }
  const auto area = static_cast<std::uint64_t>(old.width) * static_cast<std::uint64_t>(old.height);
  return static_cast<int>((sum + area / 2) / area);
}

}  // namespace

TEST_CASE("each new pixel is the mean of what it covers, to the last unit") {
  std::mt19937 random(31);
  for (int round = 0; round < 120; ++round) {
    const auto n = [&](unsigned most) { return static_cast<int>(1 + random() % most); };
    Pixels old(n(23), n(17), std::vector<int>{1, 3, 4}[static_cast<std::size_t>(round) % 3]);
    for (auto& byte : old.bytes) byte = static_cast<std::uint8_t>(round % 5 == 0 ? 255 : random());
    const int width = n(static_cast<unsigned>(old.width)), height = n(static_cast<unsigned>(old.height));
    Shrinker shrinker(old.width, old.height, old.channels, width, height);
    for (int y = 0; y < old.height; ++y) shrinker.add(old.bytes.data() + old.row_size() * static_cast<std::size_t>(y));
    const Pixels made = shrinker.take();
    INFO("round " << round << ": " << old.width << "x" << old.height << " to " << width << "x" << height);
    std::size_t at = 0;
    bool same = true;
    for (int y = 0; y < height; ++y)
      for (int x = 0; x < width; ++x)
        for (int c = 0; c < old.channels; ++c) same = same && made.bytes[at++] == mean(old, width, height, x, y, c);
    CHECK(same);
  }
}
