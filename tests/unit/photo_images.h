// Test photos made in code, and a reader for what comes back.
#pragma once

#include <array>
#include <csetjmp>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <string>
#include <string_view>
#include <vector>
// These need the ones above.
#include <jpeglib.h>
#include <lcms2.h>
#include <png.h>

namespace photo_images {

using namespace std::string_literals;
using Colour = std::array<int, 3>;

struct Image {
  int width = 0;
  int height = 0;
  int channels = 3;
  std::vector<std::uint8_t> bytes;

  [[nodiscard]] std::uint8_t* row(int y) { return bytes.data() + std::ptrdiff_t{y} * width * channels; }
  [[nodiscard]] Colour at(int x, int y) const {
    const std::uint8_t* p = bytes.data() + (std::ptrdiff_t{y} * width + x) * channels;
    return channels == 1 ? Colour{p[0], p[0], p[0]} : Colour{p[0], p[1], p[2]};
  }
};

inline Image painted(int width, int height, int channels, const std::function<int(int x, int y, int channel)>& paint) {
  Image image{width, height, channels, {}};
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x)
      for (int c = 0; c < channels; ++c) image.bytes.push_back(static_cast<std::uint8_t>(paint(x, y, c)));
  return image;
}

inline Image plain(int width, int height, const std::vector<int>& colour) {
  return painted(width, height, static_cast<int>(colour.size()),
                 [&](int, int, int c) { return colour[static_cast<std::size_t>(c)]; });
}

/// Soft waves with a little grain, so that every part of a file carries something.
inline Image waves(int width, int height, int channels = 3) {
  return painted(width, height, channels, [](int x, int y, int c) {
    const int grain = (x * 7919 + y * 104729 + c * 31) % 23;
    return 60 + (x * (c + 2) + y * 3) % 170 + grain / 2;
  });
}

inline Colour colour_named(char letter) {
  switch (letter) {
    case 'R':
      return {230, 20, 20};
    case 'G':
      return {20, 200, 30};
    case 'B':
      return {30, 40, 220};
    default:
      return {240, 230, 30};
  }
}

/// Four coloured quarters: upper left, upper right, lower left, lower right.
inline Image quarters(int width, int height, std::string_view letters) {
  return painted(width, height, 3, [&](int x, int y, int c) {
    const std::size_t quarter = (y >= height / 2 ? 2U : 0U) + (x >= width / 2 ? 1U : 0U);
    return colour_named(letters[quarter])[static_cast<std::size_t>(c)];
  });
}

// --- notes and profiles ---

inline std::string number(std::uint32_t value, int size, bool big) {
  std::string bytes;
  for (int i = 0; i < size; ++i) bytes += static_cast<char>(value >> (8 * (big ? size - 1 - i : i)) & 0xffU);
  return bytes;
}

/// An EXIF block with an orientation, a GPS folder (empty, but named) and, when asked, the mark of the wide colours.
inline std::string exif_block(unsigned orientation, bool big = true, bool wide_colours = false) {
  const auto entry = [big](unsigned tag, unsigned type, const std::string& value) {
    return number(tag, 2, big) + number(type, 2, big) + number(type == 2 ? 4 : 1, 4, big) + value;
  };
  const auto folder = [big](const std::vector<std::string>& entries) {
    std::string bytes = number(static_cast<std::uint32_t>(entries.size()), 2, big);
    for (const auto& e : entries) bytes += e;
    return bytes + number(0, 4, big);
  };
  const std::string head = (big ? "MM"s : "II"s) + number(42, 2, big) + number(8, 4, big);
  const std::string first =
      folder({entry(0x0112, 3, number(orientation, 2, big) + "\0\0"s),
              entry(0x8769, 4, number(8 + 2 + 3 * 12 + 4, 4, big)), entry(0x8825, 4, number(0, 4, big))});
  const std::string second = folder({entry(0xa005, 4, number(8 + 42 + 18, 4, big))});
  return head + first + second + folder({entry(1, 2, wide_colours ? "R03\0"s : "R98\0"s)});
}

/// A profile of RGB with these corners; gamma 0 stands for the steps of sRGB.
inline std::string rgb_profile(const std::array<double, 6>& xy, double gamma) {
  const cmsCIExyY white{0.3127, 0.3290, 1};
  const cmsCIExyYTRIPLE corners{{xy[0], xy[1], 1}, {xy[2], xy[3], 1}, {xy[4], xy[5], 1}};
  const double srgb[] = {2.4, 1 / 1.055, 0.055 / 1.055, 1 / 12.92, 0.04045};
  cmsToneCurve* curve = gamma > 0 ? cmsBuildGamma(nullptr, gamma) : cmsBuildParametricToneCurve(nullptr, 4, srgb);
  cmsToneCurve* curves[] = {curve, curve, curve};
  cmsHPROFILE profile = cmsCreateRGBProfile(&white, &corners, curves);
  cmsUInt32Number size = 0;
  cmsSaveProfileToMem(profile, nullptr, &size);
  std::string bytes(size, '\0');
  cmsSaveProfileToMem(profile, bytes.data(), &size);
  bytes.replace(24, 12, std::string(12, '\0'));  // the time of making
  cmsCloseProfile(profile);
  cmsFreeToneCurve(curve);
  return bytes;
}

// --- JPEG ---

struct JpegLook {
  int quality = 92;
  bool progressive = false;
  bool arithmetic = false;
  unsigned restart = 0;
  bool full_colour = true;             ///< 4:4:4
  J_COLOR_SPACE stored = JCS_UNKNOWN;  ///< as libjpeg chooses
  bool adobe_marker = true;            ///< of CMYK
  std::string exif = {};
  std::string profile = {};
};

inline std::string make_jpeg(Image image, const JpegLook& look = {}) {
  jpeg_compress_struct info{};
  jpeg_error_mgr errors{};
  info.err = jpeg_std_error(&errors);
  jpeg_create_compress(&info);
  unsigned char* bytes = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&info, &bytes, &size);
  info.image_width = static_cast<JDIMENSION>(image.width);
  info.image_height = static_cast<JDIMENSION>(image.height);
  info.input_components = image.channels;
  info.in_color_space = image.channels == 1 ? JCS_GRAYSCALE : image.channels == 3 ? JCS_RGB : JCS_CMYK;
  jpeg_set_defaults(&info);
  if (look.stored != JCS_UNKNOWN) jpeg_set_colorspace(&info, look.stored);
  if (!look.adobe_marker) info.write_Adobe_marker = FALSE;
  jpeg_set_quality(&info, look.quality, TRUE);
  info.restart_interval = look.restart;
  info.arith_code = look.arithmetic ? TRUE : FALSE;
  if (look.full_colour) info.comp_info[0].h_samp_factor = info.comp_info[0].v_samp_factor = 1;
  if (look.progressive) jpeg_simple_progression(&info);
  jpeg_start_compress(&info, TRUE);
  const std::string note = "Exif\0\0"s + look.exif;
  if (!look.exif.empty())
    jpeg_write_marker(&info, JPEG_APP0 + 1, reinterpret_cast<const JOCTET*>(note.data()),
                      static_cast<unsigned>(note.size()));
  if (!look.profile.empty())
    jpeg_write_icc_profile(&info, reinterpret_cast<const JOCTET*>(look.profile.data()),
                           static_cast<unsigned>(look.profile.size()));
  for (int y = 0; y < image.height; ++y) {
    JSAMPROW row = image.row(y);
    jpeg_write_scanlines(&info, &row, 1);
  }
  jpeg_finish_compress(&info);
  std::string result(reinterpret_cast<char*>(bytes), size);
  jpeg_destroy_compress(&info);
  std::free(bytes);
  return result;
}

struct Read {
  Image image;
  bool progressive = false;
  int warnings = 0;
  std::vector<int> markers;  ///< that carry notes, the JFIF head left out
  bool halved_colours = false;
};

/// Reads a JPEG of ours; a file that is no JPEG ends the test program.
inline Read read_jpeg(const std::string& bytes) {
  jpeg_decompress_struct info{};
  jpeg_error_mgr errors{};
  info.err = jpeg_std_error(&errors);
  jpeg_create_decompress(&info);
  jpeg_mem_src(&info, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
  jpeg_save_markers(&info, JPEG_COM, 0xffff);
  for (int app = 1; app < 16; ++app) jpeg_save_markers(&info, JPEG_APP0 + app, 0xffff);
  jpeg_read_header(&info, TRUE);
  jpeg_start_decompress(&info);
  Read read;
  read.progressive = info.progressive_mode != 0;
  read.halved_colours =
      info.num_components == 3 && info.comp_info[0].h_samp_factor == 2 && info.comp_info[0].v_samp_factor == 2;
  for (auto* marker = info.marker_list; marker != nullptr; marker = marker->next)
    read.markers.push_back(marker->marker);
  read.image = plain(static_cast<int>(info.output_width), static_cast<int>(info.output_height),
                     std::vector<int>(static_cast<std::size_t>(info.output_components)));
  for (int y = 0; y < read.image.height; ++y) {
    JSAMPROW row = read.image.row(y);
    jpeg_read_scanlines(&info, &row, 1);
  }
  jpeg_finish_decompress(&info);
  read.warnings = static_cast<int>(info.err->num_warnings);
  jpeg_destroy_decompress(&info);
  return read;
}

// --- PNG ---

struct PngLook {
  int type = PNG_COLOR_TYPE_RGB;
  int depth = 8;
  bool interlaced = false;
  std::vector<png_color> palette = {};
  std::vector<png_byte> palette_alpha = {};
  int clear_grey = -1;  ///< the grey that is see-through
  std::string exif = {};
  std::string profile = {};
};

/// `image` holds packed rows: its channels are bytes a pixel (so 6 for RGB of 16 bits), 1 for packed bits.
inline std::string make_png(Image image, const PngLook& look = {}) {
  std::string result;
  png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, nullptr, nullptr);
  png_infop info = png_create_info_struct(png);
  png_set_write_fn(
      png, &result,
      [](png_structp p, png_bytep data, png_size_t size) {
        static_cast<std::string*>(png_get_io_ptr(p))->append(reinterpret_cast<char*>(data), size);
      },
      nullptr);
  png_set_IHDR(png, info, static_cast<png_uint_32>(image.width), static_cast<png_uint_32>(image.height), look.depth,
               look.type, look.interlaced ? PNG_INTERLACE_ADAM7 : PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
               PNG_FILTER_TYPE_DEFAULT);
  if (!look.palette.empty()) png_set_PLTE(png, info, look.palette.data(), static_cast<int>(look.palette.size()));
  if (!look.palette_alpha.empty())
    png_set_tRNS(png, info, look.palette_alpha.data(), static_cast<int>(look.palette_alpha.size()), nullptr);
  if (look.clear_grey >= 0) {
    png_color_16 clear{};
    clear.gray = static_cast<png_uint_16>(look.clear_grey);
    png_set_tRNS(png, info, nullptr, 0, &clear);
  }
  std::string exif = look.exif;
  if (!exif.empty())
    png_set_eXIf_1(png, info, static_cast<png_uint_32>(exif.size()), reinterpret_cast<png_bytep>(exif.data()));
  if (!look.profile.empty())
    png_set_iCCP(png, info, "profile", PNG_COMPRESSION_TYPE_BASE,
                 reinterpret_cast<png_const_bytep>(look.profile.data()), static_cast<png_uint_32>(look.profile.size()));
  png_write_info(png, info);
  if (look.depth < 8) png_set_packing(png);
  std::vector<png_bytep> rows;
  for (int y = 0; y < image.height; ++y) rows.push_back(image.row(y));
  png_write_image(png, rows.data());
  png_write_end(png, nullptr);
  png_destroy_write_struct(&png, &info);
  return result;
}

inline bool near(const Colour& a, const Colour& b, int tolerance) {
  for (std::size_t c = 0; c < 3; ++c)
    if (std::abs(a[c] - b[c]) > tolerance) return false;
  return true;
}

}  // namespace photo_images
