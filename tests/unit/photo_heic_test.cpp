// HEIC photos, made by libheif's own encoder: turned, wide-gamut, cut short.
#include <libheif/heif.h>

#include <catch2/catch.hpp>

#include "photo/photo.h"
#include "unit/photo_images.h"

using namespace photo_images;
using soundsill::photo::as_jpeg;
using soundsill::photo::damage;
using soundsill::photo::Header;
using soundsill::photo::prepare;
using soundsill::photo::read_header;

namespace {

struct HeicLook {
  int orientation = 1;
  std::string profile = {};
  int primaries = 0;
};

heif_error take(heif_context* /*context*/, const void* data, size_t size, void* to) {
  static_cast<std::string*>(to)->append(static_cast<const char*>(data), size);
  return {heif_error_Ok, heif_suberror_Unspecified, ""};
}

void expect(const heif_error& error) {
  INFO(error.message);
  REQUIRE(error.code == heif_error_Ok);
}

std::string make_heic(const Image& picture, const HeicLook& look = {}) {
  heif_context* context = heif_context_alloc();
  heif_encoder* encoder = nullptr;
  expect(heif_context_get_encoder_for_format(context, heif_compression_HEVC, &encoder));
  heif_encoder_set_lossy_quality(encoder, 95);
  heif_image* image = nullptr;
  expect(heif_image_create(picture.width, picture.height, heif_colorspace_RGB, heif_chroma_interleaved_RGB, &image));
  expect(heif_image_add_plane(image, heif_channel_interleaved, picture.width, picture.height, 24));
  int stride = 0;
  std::uint8_t* rows = heif_image_get_plane(image, heif_channel_interleaved, &stride);
  for (int y = 0; y < picture.height; ++y)
    std::copy_n(picture.bytes.data() + std::ptrdiff_t{y} * picture.width * 3, picture.width * 3,
                rows + std::ptrdiff_t{y} * stride);
  if (!look.profile.empty())
    expect(heif_image_set_raw_color_profile(image, "prof", look.profile.data(), look.profile.size()));
  heif_encoding_options* options = heif_encoding_options_alloc();
  options->image_orientation = static_cast<heif_orientation>(look.orientation);
  heif_color_profile_nclx* nclx = nullptr;
  if (look.primaries != 0) {
    nclx = heif_nclx_color_profile_alloc();
    heif_nclx_color_profile_set_color_primaries(nclx, static_cast<std::uint16_t>(look.primaries));
    heif_nclx_color_profile_set_transfer_characteristics(nclx, heif_transfer_characteristic_IEC_61966_2_1);
    heif_nclx_color_profile_set_matrix_coefficients(nclx, heif_matrix_coefficients_ITU_R_BT_601_6);
    nclx->full_range_flag = 1;
    expect(heif_image_set_nclx_color_profile(image, nclx));
    options->output_nclx_profile = nclx;
    options->macOS_compatibility_workaround_no_nclx_profile = 0;
  }
  expect(heif_context_encode_image(context, image, encoder, options, nullptr));
  std::string bytes;
  heif_writer writer{1, take};
  expect(heif_context_write(context, &writer, &bytes));
  if (nclx) heif_nclx_color_profile_free(nclx);
  heif_encoding_options_free(options);
  heif_image_release(image);
  heif_encoder_release(encoder);
  heif_context_free(context);
  return bytes;
}

Image result_of(const std::string& bytes, int room) {
  const auto placed = prepare(bytes, room, room, 95);
  INFO(placed.trouble);
  REQUIRE(placed);
  return read_jpeg(placed.value->jpeg).image;
}

std::string quarters_of(const Image& image) {
  std::string letters;
  for (const int y : {image.height / 4, image.height * 3 / 4})
    for (const int x : {image.width / 4, image.width * 3 / 4})
      for (const char letter : "RGBY"s)
        if (near(image.at(x, y), colour_named(letter), 24)) letters += letter;
  return letters;
}

// How the quarters R G / B Y lie in the file for each orientation, from the meaning of "row 0 is .., column 0 is ..".
const std::array<std::string, 9> stored_quarters{"", "RGBY", "GRYB", "YBGR", "BYRG", "RBGY", "GYRB", "YGBR", "BRYG"};

}  // namespace

TEST_CASE("a HEIC comes out upright, whatever way its container turns it") {
  for (const int orientation : {1, 2, 3, 4, 6, 8}) {
    const bool lying = orientation >= 5;
    const auto bytes = make_heic(
        quarters(lying ? 128 : 192, lying ? 192 : 128, stored_quarters[static_cast<std::size_t>(orientation)]),
        {.orientation = orientation});
    INFO("orientation " << orientation);
    const auto header = read_header(bytes);
    REQUIRE(header);
    CHECK(header.value->kind == Header::Kind::heic);
    CHECK(header.value->upright_width() == 192);
    CHECK(header.value->upright_height() == 128);
    CHECK(quarters_of(result_of(bytes, 200)) == "RGBY");
    CHECK(quarters_of(result_of(bytes, 60)) == "RGBY");
  }
}

TEST_CASE("a wide-gamut HEIC becomes sRGB, by its profile and by the number of its primaries") {
  const std::array<double, 6> p3{0.680, 0.320, 0.265, 0.690, 0.150, 0.060};
  const Image red = plain(128, 128, {234, 51, 35});  // sRGB's red as Display P3 writes it
  const auto middle = [](const std::string& bytes) { return result_of(bytes, 200).at(64, 64); };
  CHECK(near(middle(make_heic(red, {.profile = rgb_profile(p3, 0)})), {255, 0, 0}, 12));
  CHECK(near(middle(make_heic(red, {.primaries = 12})), {255, 0, 0}, 12));
  CHECK(near(middle(make_heic(red, {.primaries = 1})), {234, 51, 35}, 8));
}

TEST_CASE("a HEIC is decoded once into a JPEG of its size") {
  const auto bytes = make_heic(waves(192, 128));
  const auto jpeg = as_jpeg(bytes);
  REQUIRE(jpeg);
  CHECK(jpeg.value->width == 192);
  CHECK(jpeg.value->height == 128);
  CHECK(read_jpeg(jpeg.value->jpeg).markers.empty());
}

TEST_CASE("a HEIC cut short or changed ends in a photo or in words") {
  const auto bytes = make_heic(waves(192, 128));
  CHECK(damage(bytes).empty());
  for (std::size_t size = 12; size < bytes.size(); size += bytes.size() / 40 + 1)
    CHECK_FALSE(damage(bytes.substr(0, size)).empty());
  unsigned seed = 7;
  for (int round = 0; round < 60; ++round) {
    std::string changed = bytes;
    for (int i = 0; i < 3; ++i) {
      seed = seed * 1664525U + 1013904223U;
      changed[seed % changed.size()] = static_cast<char>(seed >> 24U);
    }
    const std::string trouble = damage(changed);
    CHECK(trouble.find('\n') == std::string::npos);
  }
}
