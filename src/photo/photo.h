// Photos: any camera's file in, upright clean sRGB pixels out. Nothing but pixels survives.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace soundsill::photo {

/// What the header of a photo says, before any pixel is decoded.
struct Header {
  enum class Kind { jpeg, png, heic };
  Kind kind = Kind::jpeg;
  int width = 0;              ///< pixels as stored
  int height = 0;             ///< pixels as stored
  int orientation = 1;        ///< EXIF 1 to 8; 5 to 8 swap width and height when upright
  bool wide_colours = false;  ///< EXIF says opRGB; a colour profile in the file has the last word
  [[nodiscard]] int upright_width() const { return orientation >= 5 ? height : width; }
  [[nodiscard]] int upright_height() const { return orientation >= 5 ? width : height; }
};

/// Either a value or, in words, what is wrong with the file ("it ends before its last line of pixels").
template <class T>
struct Outcome {
  std::optional<T> value;
  std::string trouble;
  explicit operator bool() const { return value.has_value(); }
};

/// Reads only the header. Refuses what is no JPEG, PNG or HEIC, is empty, has no pixels or more than
/// most::photo_pixels.
[[nodiscard]] Outcome<Header> read_header(std::string_view bytes);

/// A photo ready to be placed: baseline JPEG, sRGB or grey, upright, without any metadata.
struct Placed {
  int width = 0;
  int height = 0;
  bool grey = false;
  std::string jpeg;
};

/// A part of the upright picture, in hundredths of a percent of its width and height.
struct Part {
  static constexpr int whole = 10000;
  int x = 0, y = 0, width = whole, height = whole;
  friend bool operator==(const Part&, const Part&) = default;
};

/// Decodes, takes the part, turns upright, converts to sRGB, reduces so that it fits `max_width` x `max_height` pixels
/// (never enlarges, keeps its proportions) and encodes at `quality`. A file cut short or damaged is refused in words.
[[nodiscard]] Outcome<Placed> prepare(std::string_view bytes, int max_width, int max_height, int quality = 80,
                                      const Part& part = {});

/// The whole picture as a JPEG with nearly nothing lost, for kinds that are slow to decode: they are decoded once.
[[nodiscard]] Outcome<Placed> as_jpeg(std::string_view bytes);

/// Decodes fully and forgets the pixels: empty when the file is whole, else what is wrong with it.
[[nodiscard]] std::string damage(std::string_view bytes);

}  // namespace soundsill::photo
