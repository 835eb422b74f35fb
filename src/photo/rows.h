// A decoder gives a photo row by row, so that a large one never stands in memory as a whole.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>

#include "photo/photo.h"

namespace soundsill::photo {

/// What the rows of an opened photo hold: 1 (grey), 3 (RGB) or 4 (CMYK) bytes a pixel.
struct Shape {
  int width = 0;
  int height = 0;
  int channels = 0;
  bool inverted = false;  ///< CMYK with 255 for "no ink"
  std::string profile;    ///< the ICC profile in the file, empty when there is none
  int primaries = 0;      ///< of a HEIC without a profile: the number by which ITU-T H.273 names its colours; 0 unsaid
};

/// A step that fails returns false and says in `trouble` what is wrong with the file; then nothing may follow.
class Rows {
 public:
  Rows() = default;
  Rows(const Rows&) = delete;
  Rows& operator=(const Rows&) = delete;
  virtual ~Rows() = default;

  /// Starts decoding, at least `width` x `height` pixels large where the file has as many.
  virtual bool open(int width, int height) = 0;
  /// Writes the next row, `shape().width * shape().channels` bytes. Called `shape().height` times.
  virtual bool next(std::uint8_t* row) = 0;
  /// Reads on to the end of the file's picture.
  virtual bool close() = 0;

  [[nodiscard]] const Shape& shape() const { return shape_; }
  [[nodiscard]] const std::string& trouble() const { return trouble_; }

 protected:
  Shape shape_;
  std::string trouble_;
};

[[nodiscard]] std::unique_ptr<Rows> jpeg_rows(std::string_view bytes);
[[nodiscard]] std::unique_ptr<Rows> png_rows(std::string_view bytes);
[[nodiscard]] std::unique_ptr<Rows> rows_of(std::string_view bytes, Header::Kind kind);

}  // namespace soundsill::photo
