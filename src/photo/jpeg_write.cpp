#include <csetjmp>
#include <cstdio>
#include <cstdlib>
// jpeglib.h needs the two above.
#include <jpeglib.h>

#include "photo/pixels.h"

namespace soundsill::photo {

namespace {

extern "C" {
[[noreturn]] void on_write_error(j_common_ptr common) {
  std::longjmp(*static_cast<std::jmp_buf*>(common->client_data), 1);  // NOLINT: the only way out of libjpeg
}
void on_write_output(j_common_ptr /*common*/) {}
}

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
  ~Writer() {
    jpeg_destroy_compress(&info_);
    std::free(bytes_);  // NOLINT: libjpeg's malloc
  }

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

  [[nodiscard]] std::string bytes() const { return {reinterpret_cast<const char*>(bytes_), size_}; }

 private:
  void begin(const Pixels& pixels, int quality, Detail detail) {
    jpeg_create_compress(&info_);
    info_.mem->max_memory_to_use = 0;  // else the environment decides
    jpeg_mem_dest(&info_, &bytes_, &size_);
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
  unsigned char* bytes_ = nullptr;
  unsigned long size_ = 0;
};

}  // namespace

std::optional<std::string> write_jpeg(const Pixels& pixels, int quality, Detail detail) {
  Writer writer;
  if (!writer.write(pixels, quality, detail)) return std::nullopt;
  return writer.bytes();
}

}  // namespace soundsill::photo
