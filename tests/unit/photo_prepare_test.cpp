#include <catch2/catch.hpp>

#include "photo/photo.h"
#include "unit/photo_images.h"

using namespace photo_images;
using soundsill::photo::damage;
using soundsill::photo::Placed;
using soundsill::photo::prepare;

namespace {

Placed prepared(const std::string& bytes, int max_width = 400, int max_height = 400, int quality = 90) {
  const auto outcome = prepare(bytes, max_width, max_height, quality);
  INFO(outcome.trouble);
  REQUIRE(outcome);
  return *outcome.value;
}

Read read_placed(const Placed& placed) {
  Read read = read_jpeg(placed.jpeg);
  CHECK(read.warnings == 0);
  CHECK(read.image.width == placed.width);
  CHECK(read.image.height == placed.height);
  CHECK((read.image.channels == 1) == placed.grey);
  return read;
}

Image result_of(const std::string& bytes, int max_width = 400, int max_height = 400) {
  return read_placed(prepared(bytes, max_width, max_height)).image;
}

/// The letters of the four quarters, by the colour in the middle of each.
std::string quarters_of(const Image& image) {
  std::string letters;
  for (const int y : {image.height / 4, image.height * 3 / 4})
    for (const int x : {image.width / 4, image.width * 3 / 4})
      for (const char letter : "RGBY"s)
        if (near(image.at(x, y), colour_named(letter), 12)) letters += letter;
  return letters;
}

// How the quarters R G / B Y lie in the file for each orientation, from the meaning of "row 0 is .., column 0 is ..".
const std::array<std::string, 9> stored_quarters{"", "RGBY", "GRYB", "YBGR", "BYRG", "RBGY", "GYRB", "YGBR", "BRYG"};

}  // namespace

TEST_CASE("all eight orientations come out upright, at full size and made smaller") {
  for (unsigned orientation = 1; orientation <= 8; ++orientation) {
    const bool lying = orientation >= 5;
    const Image stored = quarters(lying ? 64 : 96, lying ? 96 : 64, stored_quarters[orientation]);
    const std::string exif = exif_block(orientation, orientation % 2 == 0);
    for (const auto& bytes : {make_jpeg(stored, {.exif = exif}), make_png(stored, {.exif = exif})})
      for (const int room : {200, 48, 31}) {
        const Image upright = result_of(bytes, room, room);
        INFO("orientation " << orientation << " in " << room);
        CHECK(quarters_of(upright) == "RGBY");
        CHECK(upright.width == std::min(room, 96));
        CHECK(upright.height == std::min((room * 64 + 48) / 96, 64));
      }
  }
}

TEST_CASE("a part is cut from the upright picture, whatever way it is stored, and at every size") {
  using soundsill::photo::Part;
  for (unsigned orientation = 1; orientation <= 8; ++orientation) {
    const bool lying = orientation >= 5;
    const Image stored = quarters(lying ? 64 : 96, lying ? 96 : 64, stored_quarters[orientation]);
    const std::string exif = exif_block(orientation);
    for (const auto& bytes : {make_jpeg(stored, {.exif = exif}), make_png(stored, {.exif = exif})})
      for (const int room : {200, 24}) {
        INFO("orientation " << orientation << " in " << room);
        // The lower right quarter, and a part round the middle that holds all four.
        const auto quarter = prepare(bytes, room, room, 90, Part{5000, 5000, 5000, 5000});
        REQUIRE(quarter);
        CHECK(quarter.value->width == std::min(room, 48));
        CHECK(quarter.value->height == std::min(room * 2 / 3, 32));
        CHECK(quarters_of(read_placed(*quarter.value).image) == "YYYY");
        const auto middle = prepare(bytes, room, room, 90, Part{2500, 2500, 5000, 5000});
        REQUIRE(middle);
        CHECK(quarters_of(read_placed(*middle.value).image) == "RGBY");
        CHECK(prepare(bytes, room, room, 90, Part{9999, 9999, 1, 1}));
      }
  }
}

TEST_CASE("a part of a large photo is decoded no larger than it is wanted, and no smaller") {
  const auto bytes = make_jpeg(waves(1600, 1200));
  for (const int wanted : {50, 200, 400}) {
    const auto part = prepare(bytes, wanted, wanted, 80, {2500, 2500, 2500, 2500});
    REQUIRE(part);
    CHECK(part.value->width == wanted);
    CHECK(part.value->height == (wanted * 3 + 2) / 4);
  }
}

TEST_CASE("nothing but pixels survives") {
  const std::string exif = exif_block(6, true, true);
  const std::string profile = rgb_profile({0.68, 0.32, 0.265, 0.69, 0.15, 0.06}, 0);
  for (const auto& bytes : {make_jpeg(waves(80, 60), {.exif = exif, .profile = profile}),
                            make_png(waves(80, 60), {.exif = exif, .profile = profile})}) {
    REQUIRE((bytes.find("Exif") != std::string::npos || bytes.find("eXIf") != std::string::npos));
    const Placed placed = prepared(bytes);
    CHECK(read_placed(placed).markers.empty());
    for (const char* word : {"Exif", "eXIf", "GPS", "ICC_PROFILE", "http", "acsp"})
      CHECK(placed.jpeg.find(word) == std::string::npos);
  }
}

TEST_CASE("the result is a baseline JPEG, with halved colours when it was a photo") {
  const Read photo = read_placed(prepared(make_jpeg(waves(80, 60), {.progressive = true})));
  CHECK_FALSE(photo.progressive);
  CHECK(photo.halved_colours);
  CHECK_FALSE(read_placed(prepared(make_png(waves(80, 60)))).halved_colours);
}

TEST_CASE("proportions are kept and nothing is enlarged") {
  struct Row {
    int width, height, max_width, max_height, made_width, made_height;
  };
  for (const Row& r : {Row{200, 100, 400, 400, 200, 100}, Row{200, 100, 100, 100, 100, 50},
                       Row{100, 200, 100, 100, 50, 100}, Row{201, 100, 67, 90, 67, 33}, Row{300, 7, 100, 100, 100, 2},
                       Row{300, 1, 10, 10, 10, 1}, Row{200, 100, 200, 99, 198, 99}, Row{99, 101, 99, 101, 99, 101},
                       Row{64, 64, 1, 1, 1, 1}, Row{64, 64, 0, -5, 1, 1}})
    for (const auto& bytes : {make_jpeg(waves(r.width, r.height)), make_png(waves(r.width, r.height))}) {
      const Placed placed = prepared(bytes, r.max_width, r.max_height);
      INFO(r.width << " x " << r.height << " in " << r.max_width << " x " << r.max_height);
      CHECK(placed.width == r.made_width);
      CHECK(placed.height == r.made_height);
      read_placed(placed);
    }
}

TEST_CASE("a smaller photo is the mean of what it covers") {
  // Stripes one pixel wide: any picking of single pixels would show black or white.
  const Image stripes = painted(300, 200, 1, [](int x, int, int) { return x % 2 == 0 ? 0 : 254; });
  const Image half = result_of(make_png(stripes, {.type = PNG_COLOR_TYPE_GRAY}), 150, 100);
  for (int x = 0; x < half.width; ++x) CHECK(std::abs(half.at(x, 50)[0] - 127) <= 1);
  const Image ramp = painted(400, 10, 1, [](int x, int, int) { return x * 255 / 399; });
  const Image tenth = result_of(make_png(ramp, {.type = PNG_COLOR_TYPE_GRAY}), 37, 10);
  for (int x = 1; x < tenth.width; ++x) CHECK(tenth.at(x, 0)[0] >= tenth.at(x - 1, 0)[0]);
}

TEST_CASE("a photo much too large keeps its picture") {
  const Image large = quarters(1600, 1200, "RGBY");
  for (const auto& bytes : {make_jpeg(large), make_jpeg(large, {.progressive = true}), make_png(large)}) {
    const Image small = result_of(bytes, 120, 120);
    CHECK(small.width == 120);
    CHECK(small.height == 90);
    CHECK(quarters_of(small) == "RGBY");
  }
}

TEST_CASE("grey stays grey") {
  const Image grey = plain(40, 30, {119});
  for (const auto& bytes : {make_jpeg(grey), make_png(grey, {.type = PNG_COLOR_TYPE_GRAY})}) {
    const Placed placed = prepared(bytes);
    CHECK(placed.grey);
    CHECK(near(read_placed(placed).image.at(20, 15), {119, 119, 119}, 1));
  }
}

TEST_CASE("the same photo gives the same bytes") {
  const Image image = waves(333, 222);
  const std::string profile = rgb_profile({0.68, 0.32, 0.265, 0.69, 0.15, 0.06}, 0);
  for (const auto& bytes :
       {make_jpeg(image, {.profile = profile}), make_jpeg(image, {.progressive = true}), make_png(image)})
    CHECK(prepared(bytes, 100, 100).jpeg == prepared(bytes, 100, 100).jpeg);
}

TEST_CASE("a lower quality gives fewer bytes") {
  const std::string bytes = make_jpeg(waves(200, 200));
  CHECK(prepared(bytes, 200, 200, 60).jpeg.size() < prepared(bytes, 200, 200, 90).jpeg.size());
  CHECK(prepare(bytes, 200, 200, 0));
  CHECK(prepare(bytes, 200, 200, 1000));
}

TEST_CASE("PNGs of every depth and kind come out with their colours") {
  for (const bool interlaced : {false, true}) {
    for (const int depth : {1, 2, 4, 8}) {
      const int top = (1 << depth) - 1;
      const Image grey = painted(40, 30, 1, [&](int x, int, int) { return x < 20 ? 0 : top; });
      const Image made =
          result_of(make_png(grey, {.type = PNG_COLOR_TYPE_GRAY, .depth = depth, .interlaced = interlaced}));
      CHECK(near(made.at(5, 15), {0, 0, 0}, 3));
      CHECK(near(made.at(35, 15), {255, 255, 255}, 3));
    }
    const Image deep = painted(
        40, 30, 6, [](int, int, int c) { return std::array{200, 17, 90, 99, 30, 1}[static_cast<std::size_t>(c)]; });
    CHECK(near(result_of(make_png(deep, {.depth = 16, .interlaced = interlaced})).at(9, 9), {200, 90, 30}, 3));
    const Image deep_grey = painted(40, 30, 2, [](int, int, int c) { return c == 0 ? 77 : 255; });
    const PngLook deep_grey_look{.type = PNG_COLOR_TYPE_GRAY, .depth = 16, .interlaced = interlaced};
    CHECK(near(result_of(make_png(deep_grey, deep_grey_look)).at(9, 9), {78, 78, 78}, 1));
    CHECK(quarters_of(result_of(make_png(quarters(61, 47, "RGBY"), {.interlaced = interlaced}))) == "RGBY");
  }
}

TEST_CASE("what is see-through in a PNG becomes white") {
  const Image half = plain(20, 20, {200, 0, 100, 128});
  CHECK(near(result_of(make_png(half, {.type = PNG_COLOR_TYPE_RGB_ALPHA})).at(9, 9), {227, 127, 177}, 3));
  const Image clear_grey = plain(20, 20, {10, 0});
  CHECK(near(result_of(make_png(clear_grey, {.type = PNG_COLOR_TYPE_GRAY_ALPHA})).at(9, 9), {255, 255, 255}, 1));
  const Image deep = painted(20, 20, 8, [](int, int, int c) {
    return std::array{200, 0, 0, 0, 100, 0, 128, 128}[static_cast<std::size_t>(c)];
  });
  CHECK(near(result_of(make_png(deep, {.type = PNG_COLOR_TYPE_RGB_ALPHA, .depth = 16, .interlaced = true})).at(9, 9),
             {227, 127, 177}, 3));
  const Image keyed = painted(40, 20, 1, [](int x, int, int) { return x < 20 ? 50 : 90; });
  const Image unkeyed = result_of(make_png(keyed, {.type = PNG_COLOR_TYPE_GRAY, .clear_grey = 50}));
  CHECK(near(unkeyed.at(5, 9), {255, 255, 255}, 1));
  CHECK(near(unkeyed.at(35, 9), {90, 90, 90}, 1));
}

TEST_CASE("a palette with alpha is resolved") {
  const Image indexes = painted(60, 20, 1, [](int x, int, int) { return x / 20; });
  for (const bool interlaced : {false, true}) {
    const Image made = result_of(make_png(indexes, {.type = PNG_COLOR_TYPE_PALETTE,
                                                    .depth = 2,
                                                    .interlaced = interlaced,
                                                    .palette = {{200, 0, 0}, {0, 0, 200}, {20, 180, 20}},
                                                    .palette_alpha = {255, 0}}));
    CHECK(near(made.at(9, 9), {200, 0, 0}, 4));
    CHECK(near(made.at(29, 9), {255, 255, 255}, 4));
    CHECK(near(made.at(49, 9), {20, 180, 20}, 4));
  }
}
