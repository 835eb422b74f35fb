#include "photo/kind.h"

#include <algorithm>
#include <array>

namespace soundsill::photo {

namespace {

using namespace std::string_view_literals;

constexpr auto png_signature = "\x89PNG\r\n\x1a\n"sv;

struct Mark {
  std::size_t at;
  std::string_view bytes;
  const char* words;
};

// The first that fits counts, so longer marks stand before shorter ones.
constexpr std::array marks{
    Mark{0, "GIF8"sv, "it is a GIF picture"},
    Mark{8, "WEBP"sv, "it is a WebP picture"},
    Mark{0, "%PDF-"sv, "it is a PDF document"},
    Mark{0, "II*\0"sv, "it is a TIFF picture or a camera's raw file"},
    Mark{0, "MM\0*"sv, "it is a TIFF picture or a camera's raw file"},
    Mark{0, "II+\0"sv, "it is a TIFF picture"},
    Mark{0, "MM\0+"sv, "it is a TIFF picture"},
    Mark{0, "\0\0\0\x0cjP  "sv, "it is a JPEG 2000 picture"},
    Mark{0, "\xff\x4f\xff\x51"sv, "it is a JPEG 2000 picture"},
    Mark{0, "\0\0\0\x0cJXL "sv, "it is a JPEG XL picture"},
    Mark{0, "\xff\x0a"sv, "it is a JPEG XL picture"},
    Mark{0, "8BPS"sv, "it is a picture editor's working file (PSD)"},
    Mark{6, "\0\0\0\0"sv, "it is a BMP picture"},  // only asked after "BM"
    Mark{0, "\0\0\1\0"sv, "it is an icon (ICO)"},
    Mark{0, "PK\3\4"sv, "it is a ZIP archive or an office document"},
    Mark{0, "RIFF"sv, "it is a sound or a video"},
};

// Brands of the container that HEIC, AVIF and videos share.
constexpr std::array heic_brands{"heic"sv, "heix"sv, "heim"sv, "heis"sv, "hevc"sv, "hevx"sv, "mif1"sv, "msf1"sv};
constexpr std::array brands{
    Mark{8, "avif"sv, "it is an AVIF photo"},
    Mark{8, "avis"sv, "it is an AVIF photo"},
    Mark{8, "crx "sv, "it is a camera's raw file"},
};

bool fits(std::string_view bytes, const Mark& mark) {
  return bytes.size() >= mark.at && bytes.substr(mark.at).starts_with(mark.bytes);
}

bool is_bitmap(const Mark& mark) { return mark.at == 6; }

bool is_text(std::string_view bytes) {
  return std::all_of(bytes.begin(), bytes.end(), [](char c) {
    const auto u = static_cast<unsigned char>(c);
    return u >= 0x20 ? u != 0x7f : c == '\n' || c == '\r' || c == '\t';
  });
}

std::string_view name_kind(std::string_view bytes) {
  if (bytes.size() >= 12 && bytes.substr(4, 4) == "ftyp") {
    for (const Mark& brand : brands)
      if (fits(bytes, brand)) return brand.words;
    return "it is a video";
  }
  for (const Mark& mark : marks)
    if (fits(bytes, mark) && (!is_bitmap(mark) || bytes.starts_with("BM"))) return mark.words;
  if (is_text(bytes.substr(0, 512))) return "it is text, not a photo";
  return "it is not a photo of a known kind";
}

}  // namespace

bool begins_as_heic(std::string_view bytes) {
  return bytes.size() >= 12 && bytes.substr(4, 4) == "ftyp" &&
         std::find(heic_brands.begin(), heic_brands.end(), bytes.substr(8, 4)) != heic_brands.end();
}

bool begins_as_jpeg(std::string_view bytes) {
  return !bytes.empty() && "\xff\xd8\xff"sv.starts_with(bytes.substr(0, 3));
}

bool begins_as_png(std::string_view bytes) {
  return !bytes.empty() && png_signature.starts_with(bytes.substr(0, png_signature.size()));
}

std::string what_it_is_instead(std::string_view bytes) {
  if (bytes.empty()) return "it is empty";
  return std::string(name_kind(bytes)) + "; a JPEG, PNG or HEIC is needed";
}

}  // namespace soundsill::photo
