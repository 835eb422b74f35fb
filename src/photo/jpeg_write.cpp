// Serves photo/pixels.h.
#include <array>
#include <csetjmp>
#include <cstdio>
// jpeglib.h needs the one above.
#include <jpeglib.h>

#include <new>
#include <type_traits>

#include "photo/pixels.h"

namespace soundsill::photo {

namespace {

extern "C" {
[[noreturn]] void on_write_error(j_common_ptr common) {
  std::longjmp(*static_cast<std::jmp_buf*>(common->client_data), 1);  // NOLINT: the only way out of libjpeg
}
void on_write_output(j_common_ptr /*common*/) {}
}

/// Where libjpeg puts its bytes: our own, since after a failure its own tells a place that it has already freed.
class Sink {
 public:
  Sink() {
    manager_.init_destination = [](j_compress_ptr c) { of(c).rewind(); };
    manager_.empty_output_buffer = [](j_compress_ptr c) -> boolean {
      of(c).take(c, of(c).buffer_.size());
      of(c).rewind();
      return TRUE;
    };
    manager_.term_destination = [](j_compress_ptr c) { of(c).take(c, of(c).buffer_.size() - c->dest->free_in_buffer); };
  }
  [[nodiscard]] jpeg_destination_mgr* manager() { return &manager_; }
  [[nodiscard]] std::string& bytes() { return bytes_; }

 private:
  static Sink& of(j_compress_ptr c) { return *reinterpret_cast<Sink*>(c->dest); }

  void rewind() {
    manager_.next_output_byte = buffer_.data();
    manager_.free_in_buffer = buffer_.size();
  }

  bool append(std::size_t count) noexcept try {
    bytes_.append(reinterpret_cast<const char*>(buffer_.data()), count);
    return true;
  } catch (const std::bad_alloc&) {
    return false;
  }

  /// Only here libjpeg's code is left: what could throw is done.
  void take(j_compress_ptr c, std::size_t count) {
    if (!append(count)) c->err->error_exit(reinterpret_cast<j_common_ptr>(c));
  }

  jpeg_destination_mgr manager_{};  // stays first: libjpeg hands back its address
  std::array<JOCTET, 8192> buffer_{};
  std::string bytes_;
};

static_assert(std::is_standard_layout_v<Sink>);

/// Owns libjpeg's writer and the bytes that it made.
class Writer {
 public:
  Writer() {
    info_.err = jpeg_std_error(&errors_);
    errors_.error_exit = on_write_error;
    errors_.output_message = on_write_output;
    info_.client_data = &escape_;
  }
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;
  ~Writer() { jpeg_destroy_compress(&info_); }

  /// This frame and the two below own nothing: they may be left at any call.
  bool write(const Pixels& pixels, int quality, Detail detail) {
    if (setjmp(escape_) != 0) return false;  // NOLINT: see above
    begin(pixels, quality, detail);
    while (info_.next_scanline < info_.image_height) {
      auto* row = const_cast<JSAMPROW>(pixels.bytes.data() + pixels.row_size() * info_.next_scanline);
      jpeg_write_scanlines(&info_, &row, 1);
    }
    jpeg_finish_compress(&info_);
    return true;
  }

  [[nodiscard]] std::string bytes() { return std::move(sink_.bytes()); }

 private:
  void begin(const Pixels& pixels, int quality, Detail detail) {
    jpeg_create_compress(&info_);
    info_.mem->max_memory_to_use = 0;  // else the environment decides
    info_.dest = sink_.manager();
    info_.image_width = static_cast<JDIMENSION>(pixels.width);
    info_.image_height = static_cast<JDIMENSION>(pixels.height);
    info_.input_components = pixels.channels;
    info_.in_color_space = pixels.channels == 1 ? JCS_GRAYSCALE : JCS_RGB;
    jpeg_set_defaults(&info_);
    jpeg_set_quality(&info_, quality, TRUE);
    info_.optimize_coding = TRUE;
    info_.dct_method = JDCT_ISLOW;
    if (detail == Detail::fine) info_.comp_info[0].h_samp_factor = info_.comp_info[0].v_samp_factor = 1;
    jpeg_start_compress(&info_, TRUE);
  }

  jpeg_compress_struct info_{};
  jpeg_error_mgr errors_{};
  std::jmp_buf escape_{};
  Sink sink_;
};

}  // namespace

std::optional<std::string> write_jpeg(const Pixels& pixels, int quality, Detail detail) {
  Writer writer;
  if (!writer.write(pixels, quality, detail)) return std::nullopt;
  return writer.bytes();
}

}  // namespace soundsill::photo
