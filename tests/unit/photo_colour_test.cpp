// Colours of other spaces against well-known pairs: how the corners of sRGB are written in the wider spaces.
#include <catch2/catch.hpp>

#include "photo/photo.h"
#include "unit/photo_images.h"

using namespace photo_images;

namespace {

const std::array<double, 6> p3_corners{0.68, 0.32, 0.265, 0.69, 0.15, 0.06};
const std::array<double, 6> oprgb_corners{0.64, 0.33, 0.21, 0.71, 0.15, 0.06};

Colour middle(const std::string& bytes) {
  const auto outcome = soundsill::photo::prepare(bytes, 100, 100, 95);
  INFO(outcome.trouble);
  REQUIRE(outcome);
  const Read read = read_jpeg(outcome.value->jpeg);
  return read.image.at(read.image.width / 2, read.image.height / 2);
}

std::string printed(const Colour& colour) {
  return std::to_string(colour[0]) + " " + std::to_string(colour[1]) + " " + std::to_string(colour[2]);
}

void check_near(const Colour& found, const Colour& expected, int tolerance) {
  INFO(printed(found) << ", expected " << printed(expected));
  CHECK(near(found, expected, tolerance));
}

/// Ink from 0 to 255, stored as this kind of file stores it.
std::string cmyk(std::vector<int> inks, J_COLOR_SPACE stored, bool adobe) {
  if (adobe)
    for (int& ink : inks) ink = 255 - ink;
  return make_jpeg(plain(40, 40, inks), {.quality = 97, .stored = stored, .adobe_marker = adobe});
}

}  // namespace

TEST_CASE("a photo with a wide colour profile becomes sRGB") {
  const std::string profile = rgb_profile(p3_corners, 0);
  const Image red = plain(40, 40, {234, 51, 35});
  check_near(middle(make_jpeg(red, {.quality = 97, .profile = profile})), {255, 0, 0}, 6);
  check_near(middle(make_png(red, {.profile = profile})), {255, 0, 0}, 4);
  check_near(middle(make_jpeg(red, {.quality = 97})), {234, 51, 35}, 4);
}

TEST_CASE("opRGB is converted, by its profile and by a camera's note alone") {
  const Image green = plain(40, 40, {144, 255, 60});
  const std::string profile = rgb_profile(oprgb_corners, 563.0 / 256.0);
  check_near(middle(make_jpeg(green, {.quality = 97, .profile = profile})), {0, 255, 0}, 8);
  check_near(middle(make_jpeg(green, {.quality = 97, .exif = exif_block(1, true, true)})), {0, 255, 0}, 8);
  check_near(middle(make_jpeg(green, {.quality = 97, .exif = exif_block(1, true, false)})), {144, 255, 60}, 4);
}

TEST_CASE("a profile that does not make sense is passed over") {
  const Image image = plain(40, 40, {144, 200, 60});
  std::string broken = rgb_profile(p3_corners, 0);
  broken.resize(200);
  check_near(middle(make_jpeg(image, {.profile = broken})), {144, 200, 60}, 4);
  check_near(middle(make_jpeg(image, {.profile = "no profile at all"})), {144, 200, 60}, 4);
  const std::string of_rgb = rgb_profile(p3_corners, 0);
  check_near(middle(make_jpeg(plain(40, 40, {90}), {.profile = of_rgb})), {90, 90, 90}, 2);
}

TEST_CASE("CMYK is read, inverted as common programs write it and plain") {
  for (const J_COLOR_SPACE stored : {JCS_CMYK, JCS_YCCK})
    for (const bool adobe : {true, false}) {
      if (stored == JCS_YCCK && !adobe) continue;  // without the marker nobody could tell
      check_near(middle(cmyk({0, 0, 0, 0}, stored, adobe)), {255, 255, 255}, 4);
      check_near(middle(cmyk({0, 0, 0, 255}, stored, adobe)), {0, 0, 0}, 4);
      check_near(middle(cmyk({255, 0, 0, 0}, stored, adobe)), {0, 255, 255}, 6);
      check_near(middle(cmyk({0, 255, 255, 0}, stored, adobe)), {255, 0, 0}, 6);
      check_near(middle(cmyk({0, 127, 0, 127}, stored, adobe)), {128, 64, 128}, 6);
    }
}

TEST_CASE("a JPEG stored as plain RGB is read") {
  check_near(middle(make_jpeg(plain(40, 40, {30, 90, 160}), {.stored = JCS_RGB})), {30, 90, 160}, 4);
}
