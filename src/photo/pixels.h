// Decoded pixels, and the three things done to them: made smaller, turned upright, written as JPEG.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace soundsill::photo {

/// Rows from the top, without gaps; 1 (grey), 3 (RGB) or 4 (CMYK) bytes a pixel.
struct Pixels {
  int width = 0;
  int height = 0;
  int channels = 0;
  std::vector<std::uint8_t> bytes;

  Pixels(int width, int height, int channels)
      : width(width),
        height(height),
        channels(channels),
        bytes(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * static_cast<std::size_t>(channels)) {
  }
  [[nodiscard]] std::size_t row_size() const {
    return static_cast<std::size_t>(width) * static_cast<std::size_t>(channels);
  }
};

/// Makes a photo smaller while its rows arrive. Each new pixel is the exact mean of the area it covers, in integers.
class Shrinker {
 public:
  /// The new size must not be larger than the old one.
  Shrinker(int width, int height, int channels, int new_width, int new_height);
  void add(const std::uint8_t* row);
  /// Called once, after all rows.
  [[nodiscard]] Pixels take() { return std::move(result_); }

 private:
  void pour(const std::uint8_t* row, std::uint32_t share);
  template <std::size_t channels>
  void squeeze();
  void finish_row();
  [[nodiscard]] std::uint8_t mean(std::uint64_t sum) const;

  using Wide = unsigned __int128;
  int width_;
  int height_;
  Pixels result_;
  std::uint32_t filled_ = 0;  ///< of the row being made, in 1/new_height of an old row
  int made_ = 0;
  std::uint64_t area_ = 0;              ///< of all old pixels
  Wide inverse_ = 0;                    ///< 2^64 divided by it
  std::vector<std::uint32_t> columns_;  ///< of the row being made, at the old width
};

/// Undoes an EXIF orientation (1 to 8).
[[nodiscard]] Pixels turn_upright(Pixels pixels, int orientation);

enum class Detail { smooth, fine };  ///< `fine` keeps sharp coloured edges, as in drawings

/// A baseline JPEG of grey or RGB pixels without metadata; nothing only when memory runs out.
[[nodiscard]] std::optional<std::string> write_jpeg(const Pixels& pixels, int quality, Detail detail);

}  // namespace soundsill::photo
