#include <catch2/catch.hpp>

#include "photo/photo.h"
#include "unit/photo_images.h"

using namespace photo_images;
using soundsill::photo::Header;
using soundsill::photo::read_header;

namespace {

std::string trouble(std::string_view bytes) {
  const auto header = read_header(bytes);
  CHECK_FALSE(header);
  CHECK(soundsill::photo::damage(bytes) == header.trouble);
  return header.trouble;
}

/// A JPEG's head with a size of our choice, and nothing behind it.
std::string jpeg_head(unsigned width, unsigned height, char frame = '\xc0', char bits = 8) {
  return "\xff\xd8\xff"s + frame + "\0\x11"s + bits + number(height, 2, true) + number(width, 2, true) +
         "\3\1\x11\0\2\x11\1\3\x11\1"s;
}

std::string png_head(unsigned width, unsigned height) {
  return "\x89PNG\r\n\x1a\n\0\0\0\x0dIHDR"s + number(width, 4, true) + number(height, 4, true) + "\x08\2\0\0\0crc!"s;
}

}  // namespace

TEST_CASE("the size of a JPEG is read, baseline and progressive") {
  for (const bool progressive : {false, true}) {
    const auto header = read_header(make_jpeg(waves(123, 45), {.progressive = progressive}));
    REQUIRE(header);
    CHECK(header.value->kind == Header::Kind::jpeg);
    CHECK(header.value->width == 123);
    CHECK(header.value->height == 45);
    CHECK(header.value->orientation == 1);
    CHECK_FALSE(header.value->wide_colours);
  }
}

TEST_CASE("the size of a PNG is read") {
  const auto header = read_header(make_png(waves(31, 77)));
  REQUIRE(header);
  CHECK(header.value->kind == Header::Kind::png);
  CHECK(header.value->width == 31);
  CHECK(header.value->height == 77);
}

TEST_CASE("the orientation is read in both byte orders, and lying photos swap their sides") {
  for (const bool big : {false, true})
    for (unsigned orientation = 1; orientation <= 8; ++orientation) {
      const std::string exif = exif_block(orientation, big, orientation == 3);
      for (const auto& bytes : {make_jpeg(waves(40, 30), {.exif = exif}), make_png(waves(40, 30), {.exif = exif})}) {
        const auto header = read_header(bytes);
        REQUIRE(header);
        CHECK(header.value->orientation == static_cast<int>(orientation));
        CHECK(header.value->upright_width() == (orientation >= 5 ? 30 : 40));
        CHECK(header.value->upright_height() == (orientation >= 5 ? 40 : 30));
        CHECK(header.value->wide_colours == (orientation == 3));
      }
    }
}

TEST_CASE("an orientation that does not exist counts as upright") {
  for (const unsigned orientation : {0U, 9U, 65535U}) {
    const auto header = read_header(make_jpeg(waves(8, 8), {.exif = exif_block(orientation)}));
    REQUIRE(header);
    CHECK(header.value->orientation == 1);
  }
}

TEST_CASE("notes cut short or pointing nowhere do not spoil the photo") {
  const std::string exif = exif_block(6, true, true);
  for (std::size_t size = 0; size <= exif.size(); ++size)
    CHECK(read_header(make_jpeg(waves(8, 8), {.exif = exif.substr(0, size)})));
  for (std::size_t at = 0; at < exif.size(); ++at) {
    std::string broken = exif;
    broken[at] = '\xff';
    CHECK(read_header(make_jpeg(waves(8, 8), {.exif = broken})));
  }
}

TEST_CASE("a file of another kind is named in words") {
  CHECK(trouble("") == "it is empty");
  const auto needs = [](const std::string& kind) { return kind + "; a JPEG, PNG or HEIC is needed"; };
  for (const char* brand : {"heic", "mif1"}) {  // a container and nothing in it, or no library to open it
    const std::string words = trouble("\0\0\0\x18"s + "ftyp" + brand + "\0\0\0\0mif1heic"s);
    CHECK((words.find("cut short") != std::string::npos || words.find("damaged") != std::string::npos ||
           words.find("libheif1") != std::string::npos));
  }
  CHECK(trouble("\0\0\0\x18"s + "ftypavif\0\0\0\0mif1"s) == needs("it is an AVIF photo"));
  CHECK(trouble("\0\0\0\x18"s + "ftypisom\0\0\0\0"s) == needs("it is a video"));
  CHECK(trouble("II*\0\x08\0\0\0"s) == needs("it is a TIFF picture or a camera's raw file"));
  CHECK(trouble("MM\0*\0\0\0\x08"s) == needs("it is a TIFF picture or a camera's raw file"));
  CHECK(trouble("GIF89a\1\0\1\0") == needs("it is a GIF picture"));
  CHECK(trouble("RIFF\x24\0\0\0WEBPVP8 "s) == needs("it is a WebP picture"));
  CHECK(trouble("RIFF\x24\0\0\0WAVEfmt "s) == needs("it is a sound or a video"));
  CHECK(trouble("%PDF-1.7\n") == needs("it is a PDF document"));
  CHECK(trouble("BM\x46\0\0\0\0\0\0\0\x36\0\0\0"s) == needs("it is a BMP picture"));
  CHECK(trouble("PK\3\4\x14\0"s) == needs("it is a ZIP archive or an office document"));
  CHECK(trouble("\0\0\0\x0cjP  \r\n\x87\n"s) == needs("it is a JPEG 2000 picture"));
  CHECK(trouble("id: F1\nphoto: 1-close.jpg\n") == needs("it is text, not a photo"));
  CHECK(trouble("\1\2\3\4\5\6\7"s) == needs("it is not a photo of a known kind"));
}

TEST_CASE("a photo without pixels is refused") {
  CHECK(trouble(jpeg_head(0, 40)) == "it has no pixels: it is 0 x 40 pixels");
  CHECK(trouble(jpeg_head(40, 0)) == "it has no pixels: it is 40 x 0 pixels");
  CHECK(trouble(png_head(0, 7)) == "it has no pixels: it is 0 x 7 pixels");
}

TEST_CASE("more than 100 million pixels are refused, as many are taken") {
  CHECK(read_header(jpeg_head(10'000, 10'000)));
  CHECK(read_header(png_head(10'000, 10'000)));
  CHECK(trouble(jpeg_head(10'000, 10'001)) == "it is 10000 x 10001 pixels, and more than 100 million are not taken");
  CHECK(trouble(png_head(0x7fffffff, 0x7fffffff)) ==
        "it is 2147483647 x 2147483647 pixels, and more than 100 million are not taken");
}

TEST_CASE("a side too long for the decoder is refused") {
  CHECK(read_header(jpeg_head(65'500, 10)));
  CHECK(trouble(jpeg_head(65'535, 10)) == "it is 65535 x 10 pixels, and no side may be longer than 65500");
  CHECK(trouble(png_head(2'000'000, 10)) == "it is 2000000 x 10 pixels, and no side may be longer than 1000000");
}

TEST_CASE("JPEG kinds that are hardly ever used are refused") {
  CHECK_THAT(trouble(jpeg_head(8, 8, '\xc3')), Catch::Contains("lossless"));
  CHECK_THAT(trouble(jpeg_head(8, 8, '\xc5')), Catch::Contains("hardly ever used"));
  CHECK_THAT(trouble(make_jpeg(waves(40, 40), {.arithmetic = true})), Catch::Contains("hardly ever used"));
  CHECK_THAT(trouble(jpeg_head(8, 8, '\xc1', 12)), Catch::Contains("12 bits a colour"));
}
