// Serves photo/photo.h. Sizes and turns, read from the markers of a JPEG or the chunks of a PNG without decoding.
#include <algorithm>

#include "photo/exif.h"
#include "photo/heic.h"
#include "photo/kind.h"
#include "photo/photo.h"
#include "source/most.h"

namespace soundsill::photo {

namespace {

constexpr int max_jpeg_side = 65'500;
constexpr int max_png_side = 1'000'000;

std::uint32_t big_endian(std::string_view bytes, std::size_t at, std::size_t size) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < size; ++i) value = value << 8U | static_cast<unsigned char>(bytes[at + i]);
  return value;
}

Outcome<Header> refuse(std::string trouble) { return {std::nullopt, std::move(trouble)}; }

std::string by(std::uint32_t width, std::uint32_t height) {
  return "it is " + std::to_string(width) + " x " + std::to_string(height) + " pixels";
}

/// Both sizes are at most 2^31 - 1 here, so their product fits.
Outcome<Header> check_size(Header header, std::uint32_t width, std::uint32_t height, int max_side) {
  const std::int64_t pixels = std::int64_t{width} * height;
  if (pixels == 0) return refuse("it has no pixels: " + by(width, height));
  if (pixels > most::photo_pixels)
    return refuse(by(width, height) + ", and more than " + std::to_string(most::photo_pixels / 1'000'000) +
                  " million are not taken");
  if (static_cast<int>(std::max(width, height)) > max_side)
    return refuse(by(width, height) + ", and no side may be longer than " + std::to_string(max_side));
  header.width = static_cast<int>(width);
  header.height = static_cast<int>(height);
  return {header, {}};
}

void take_exif(Header& header, std::string_view block) {
  const Exif exif = read_exif(block);
  header.orientation = exif.orientation;
  header.wide_colours = exif.wide_colours;
}

// --- JPEG ---

struct Segment {
  unsigned marker = 0;
  std::string_view body;
};

enum class Step { segment, ends, broken };

/// Reads the segment at `at` and moves behind it.
Step next_segment(std::string_view bytes, std::size_t& at, Segment& segment) {
  if (at >= bytes.size()) return Step::ends;
  at = std::min(bytes.find('\xff', at), bytes.size());    // what some writers leave between markers belongs to nothing
  while (at < bytes.size() && bytes[at] == '\xff') ++at;  // any number of fill bytes
  if (at >= bytes.size()) return Step::ends;
  segment.marker = static_cast<unsigned char>(bytes[at++]);
  if (segment.marker == 0x01) return Step::segment;
  if (segment.marker == 0x00 || (segment.marker >= 0xd0 && segment.marker <= 0xd9)) return Step::broken;
  if (bytes.size() - at < 2) return Step::ends;
  const std::size_t length = big_endian(bytes, at, 2);
  if (length < 2) return Step::broken;
  if (bytes.size() - at < length) return Step::ends;
  segment.body = bytes.substr(at + 2, length - 2);
  at += length;
  return Step::segment;
}

bool is_frame(unsigned marker) {
  return marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc;
}

Outcome<Header> read_frame(const Header& header, const Segment& frame) {
  const unsigned sort = frame.marker & 0xfU;
  if (frame.body.size() < 6) return refuse(damaged);
  const unsigned bits = big_endian(frame.body, 0, 1);
  if (sort == 3 || sort == 11) return refuse("it is a JPEG of the lossless kind; an ordinary JPEG or PNG is needed");
  if (sort > 2)  // packed by arithmetic too: no hole in such a file could be noticed
    return refuse("it is a JPEG of a kind that is hardly ever used; an ordinary JPEG or PNG is needed");
  if (bits != 8)
    return refuse("it is a JPEG of " + std::to_string(bits) + " bits a colour; an ordinary JPEG or PNG is needed");
  return check_size(header, big_endian(frame.body, 3, 2), big_endian(frame.body, 1, 2), max_jpeg_side);
}

Outcome<Header> read_jpeg(std::string_view bytes) {
  using namespace std::string_view_literals;
  constexpr auto exif_name = "Exif\0\0"sv;
  Header header{.kind = Header::Kind::jpeg};
  Segment segment;
  bool has_exif = false;
  for (std::size_t at = 2;;) {
    const Step step = next_segment(bytes, at, segment);
    if (step != Step::segment) return refuse(step == Step::ends ? cut_short : damaged);
    if (is_frame(segment.marker)) return read_frame(header, segment);
    if (segment.marker == 0xda) return refuse(damaged);  // pixels before their size
    if (segment.marker == 0xe1 && !has_exif && segment.body.starts_with(exif_name)) {
      take_exif(header, segment.body.substr(exif_name.size()));
      has_exif = true;
    }
  }
}

// --- PNG ---

/// The body of the first chunk of this name behind `at`; empty when there is none.
std::string_view find_chunk(std::string_view bytes, std::size_t at, std::string_view name) {
  while (bytes.size() - at >= 12) {
    const std::size_t length = big_endian(bytes, at, 4);
    if (length > bytes.size() - at - 12) break;
    if (bytes.substr(at + 4, 4) == name) return bytes.substr(at + 8, length);
    at += 12 + length;
  }
  return {};
}

Outcome<Header> read_png(std::string_view bytes) {
  constexpr std::size_t signature = 8;
  constexpr std::size_t head_end = signature + 25;
  if (bytes.size() < head_end) return refuse(cut_short);
  if (bytes.substr(signature + 4, 4) != "IHDR" || big_endian(bytes, signature, 4) != 13) return refuse(damaged);
  const std::uint32_t width = big_endian(bytes, signature + 8, 4);
  const std::uint32_t height = big_endian(bytes, signature + 12, 4);
  if (width > INT32_MAX || height > INT32_MAX) return refuse(damaged);
  Header header{.kind = Header::Kind::png};
  take_exif(header, find_chunk(bytes, head_end, "eXIf"));
  return check_size(header, width, height, max_png_side);
}

}  // namespace

Outcome<Header> read_header(std::string_view bytes) {
  if (begins_as_jpeg(bytes)) return read_jpeg(bytes);
  if (begins_as_png(bytes)) return read_png(bytes);
  if (begins_as_heic(bytes)) {
    const auto size = heic_size(bytes);
    if (!size) return refuse(size.trouble);
    return check_size(Header{.kind = Header::Kind::heic}, static_cast<std::uint32_t>(size.value->width),
                      static_cast<std::uint32_t>(size.value->height), max_png_side);
  }
  return refuse(what_it_is_instead(bytes));
}

}  // namespace soundsill::photo
