// Serves photo/rows.h. PNG decoding. libpng leaves a failed call by longjmp, so each call runs in a frame without
// destructors.
#include <png.h>

#include <csetjmp>
#include <cstring>
#include <vector>

#include "photo/heic.h"
#include "photo/kind.h"
#include "photo/rows.h"

namespace soundsill::photo {

namespace {

constexpr png_alloc_size_t max_chunk = 8U << 20U;
constexpr std::size_t max_profile = 4U << 20U;

struct Input {
  std::string_view rest;
  bool ran_out = false;
  std::jmp_buf escape;
};

extern "C" {
[[noreturn]] void on_png_error(png_structp png, png_const_charp /*words*/) {
  std::longjmp(static_cast<Input*>(png_get_error_ptr(png))->escape, 1);  // NOLINT: the only way out of libpng
}
void on_png_warning(png_structp /*png*/, png_const_charp /*words*/) {}
void on_png_read(png_structp png, png_bytep to, png_size_t size) {
  auto* input = static_cast<Input*>(png_get_io_ptr(png));
  if (size > input->rest.size()) {
    input->ran_out = true;
    png_error(png, "end of file");
  }
  std::memcpy(to, input->rest.data(), size);
  input->rest.remove_prefix(size);
}
}

std::uint8_t over_white(unsigned value, unsigned alpha) {
  return static_cast<std::uint8_t>((value * alpha + 255 * (255 - alpha) + 127) / 255);
}

class PngRows final : public Rows {
 public:
  explicit PngRows(std::string_view bytes) { input_.rest = bytes; }
  ~PngRows() override { png_destroy_read_struct(&png_, &info_, nullptr); }

  bool open(int /*width*/, int /*height*/) override {
    if (!attempt([this] { read_head(); })) return false;
    take_profile();
    stored_channels_ = png_get_channels(png_, info_);
    shape_.width = static_cast<int>(png_get_image_width(png_, info_));
    shape_.height = static_cast<int>(png_get_image_height(png_, info_));
    shape_.channels = stored_channels_ <= 2 ? 1 : 3;
    stored_row_ = std::size_t{png_get_image_width(png_, info_)} * stored_channels_;
    if (png_get_rowbytes(png_, info_) != stored_row_) return fail(damaged);
    return interlaced_ ? read_whole() : (pixels_.resize(stored_row_), true);
  }

  bool next(std::uint8_t* row) override {
    if (interlaced_) {
      flatten(pixels_.data() + stored_row_ * row_number_++, row);
      return true;
    }
    if (!attempt([this] { png_read_row(png_, pixels_.data(), nullptr); })) return false;
    flatten(pixels_.data(), row);
    return true;
  }

  bool close() override {
    return attempt([this] { png_read_end(png_, nullptr); });
  }

 private:
  template <class F>
  bool attempt(F step) {
    return came_through(step) || fail(input_.ran_out ? cut_short : damaged);
  }

  /// This frame and `step` own nothing: they may be left at any call.
  template <class F>
  bool came_through(F step) {
    if (setjmp(input_.escape) != 0) return false;  // NOLINT: see above
    step();
    return true;
  }

  bool fail(const char* words) {
    trouble_ = words;
    return false;
  }

  /// Whatever is stored, rows come out as 8-bit grey or RGB, with or without alpha.
  void read_head() {
    png_ = png_create_read_struct(PNG_LIBPNG_VER_STRING, &input_, on_png_error, on_png_warning);
    if (png_ == nullptr) std::longjmp(input_.escape, 1);  // NOLINT: see above
    info_ = png_create_info_struct(png_);
    if (info_ == nullptr) png_error(png_, "no memory");
    png_set_chunk_malloc_max(png_, max_chunk);
    png_set_read_fn(png_, &input_, on_png_read);
    png_read_info(png_, info_);
    interlaced_ = png_get_interlace_type(png_, info_) != PNG_INTERLACE_NONE;
    png_set_expand(png_);
    png_set_scale_16(png_);
    if (interlaced_) png_set_interlace_handling(png_);
    png_read_update_info(png_, info_);
  }

  void take_profile() {
    png_charp name = nullptr;
    int compression = 0;
    png_bytep data = nullptr;
    png_uint_32 size = 0;
    if (png_get_iCCP(png_, info_, &name, &compression, &data, &size) != 0 && size <= max_profile)
      shape_.profile.assign(reinterpret_cast<const char*>(data), size);
  }

  /// An interlaced photo comes in seven passes, so its pixels stand in memory as a whole.
  bool read_whole() {
    const auto height = static_cast<std::size_t>(shape_.height);
    pixels_.resize(stored_row_ * height);
    std::vector<png_bytep> rows(height);
    for (std::size_t y = 0; y < height; ++y) rows[y] = pixels_.data() + stored_row_ * y;
    png_bytepp first = rows.data();
    return attempt([this, first] { png_read_image(png_, first); });
  }

  /// Lays a row over white and drops its alpha.
  void flatten(const std::uint8_t* stored, std::uint8_t* row) const {
    const auto colours = static_cast<unsigned>(shape_.channels);
    if (stored_channels_ == colours) {
      std::memcpy(row, stored, stored_row_);
      return;
    }
    for (std::size_t at = 0; at < stored_row_; at += stored_channels_)
      for (unsigned c = 0; c < colours; ++c) *row++ = over_white(stored[at + c], stored[at + colours]);
  }

  Input input_{};
  png_structp png_ = nullptr;
  png_infop info_ = nullptr;
  bool interlaced_ = false;
  unsigned stored_channels_ = 0;
  std::size_t stored_row_ = 0;
  std::size_t row_number_ = 0;
  std::vector<std::uint8_t> pixels_;  ///< one stored row, or all of them when interlaced
};

}  // namespace

std::unique_ptr<Rows> png_rows(std::string_view bytes) { return std::make_unique<PngRows>(bytes); }

std::unique_ptr<Rows> rows_of(std::string_view bytes, Header::Kind kind) {
  return kind == Header::Kind::jpeg ? jpeg_rows(bytes) : kind == Header::Kind::png ? png_rows(bytes) : heic_rows(bytes);
}

}  // namespace soundsill::photo
