// A photo from its bytes: header, damage, and a part of it made ready for the page.
#include "photo/photo.h"
#include "source/most.h"

#include <algorithm>

#include "fuzz/fuzz.h"

using namespace soundsill;
using fuzzing::must;

namespace {

/// Larger pictures only take longer; the limit of the program itself is tried by the header.
constexpr std::int64_t most_pixels = 1 << 18;

photo::Part part_of(std::uint64_t number) {
  const auto share = [&](unsigned shift) { return static_cast<int>(number >> shift & 0xfffU) * 2; };
  if (number % 4 == 0) return {};
  photo::Part part{share(8), share(20), 0, 0};
  part.width = std::min(photo::Part::whole - part.x, share(32) + 1);
  part.height = std::min(photo::Part::whole - part.y, share(44) + 1);
  return part;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes = fuzzing::text_of(data, size);
  const auto header = photo::read_header(bytes);
  must(header || !header.trouble.empty(), "a photo is refused in words");
  if (!header) return 0;
  const std::int64_t pixels = std::int64_t{header.value->width} * header.value->height;
  must(pixels > 0 && pixels <= most::photo_pixels, "a photo has pixels, and not too many");
  if (pixels > most_pixels) return 0;
  const std::string damage = photo::damage(bytes);
  const std::uint64_t number = fuzzing::number_of(bytes);
  const auto placed = photo::prepare(bytes, 96, 64, 80, part_of(number));
  must(placed || !placed.trouble.empty(), "a photo that cannot be used says why");
  if (!placed) return 0;
  must(placed.value->width >= 1 && placed.value->width <= 96, "it fits its width");
  must(placed.value->height >= 1 && placed.value->height <= 64, "it fits its height");
  const auto again = photo::read_header(placed.value->jpeg);
  must(again && again.value->width == placed.value->width && again.value->height == placed.value->height,
       "what was made is a JPEG of its size");
  must(photo::damage(placed.value->jpeg).empty(), "what was made is whole");
  return 0;
}
