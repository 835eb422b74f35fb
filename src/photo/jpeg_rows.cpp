// Serves photo/rows.h. JPEG decoding. libjpeg leaves a failed call by longjmp, so each call runs in a frame without
// destructors.
#include <csetjmp>
#include <cstdio>
#include <cstdlib>
// jpeglib.h needs the two above.
#include <jerror.h>
#include <jpeglib.h>

#include "photo/kind.h"
#include "photo/rows.h"

namespace soundsill::photo {

namespace {

constexpr long max_memory = 1L << 30;  // a progressive photo keeps all of its coefficients
constexpr int max_scans = 100;         // usual are about 10; each one costs a pass over the whole photo
constexpr unsigned max_profile = 4U << 20U;
constexpr int too_many_scans = -1;  // beside libjpeg's own codes

/// Warnings about names and versions; pixels are not touched by them.
bool harmless(int code) { return code == JWRN_ADOBE_XFORM || code == JWRN_JFIF_MAJOR || code == JWRN_BOGUS_ICC; }

/// Where to go on after trouble; `client_data` points to it.
struct Escape {
  std::jmp_buf place;
  int code = 0;             ///< the message code of the first trouble
  bool after_scan = false;  ///< the marker read last is that of a scan: what follows it are pixels
};

/// libjpeg traces each marker that it has read.
void note_marker(Escape& escape, int trace) {
  switch (trace) {
    case JTRC_SOS:
      escape.after_scan = true;
      break;
    case JTRC_DHT:
    case JTRC_DQT:
    case JTRC_DRI:
    case JTRC_MISC_MARKER:
      escape.after_scan = false;
      break;
    default:
      break;
  }
}

[[noreturn]] void escape(j_common_ptr common, int code) {
  auto* escape = static_cast<Escape*>(common->client_data);
  escape->code = code;
  std::longjmp(escape->place, 1);  // NOLINT: the only way out of libjpeg
}

extern "C" {
void on_jpeg_error(j_common_ptr common) { escape(common, common->err->msg_code); }
void on_jpeg_message(j_common_ptr common, int level) {
  auto& state = *static_cast<Escape*>(common->client_data);
  const int code = common->err->msg_code;
  if (level >= 0) return note_marker(state, code);
  // Bytes that some writers leave between one marker and the next belong to nothing. Behind a scan they are pixels that
  // did not fit, and so some before them were read wrong.
  const bool stray = code == JWRN_EXTRANEOUS_DATA && !state.after_scan;
  if (!stray && !harmless(code)) escape(common, code);
}
void on_jpeg_output(j_common_ptr /*common*/) {}
void on_jpeg_progress(j_common_ptr common) {
  if (reinterpret_cast<j_decompress_ptr>(common)->input_scan_number > max_scans) escape(common, too_many_scans);
}
}

std::string words_for(int code) {
  switch (code) {
    case JWRN_JPEG_EOF:
    case JERR_INPUT_EOF:
    case JERR_INPUT_EMPTY:
      return cut_short;
    case JERR_OUT_OF_MEMORY:
    case JERR_NO_BACKING_STORE:
      return "it needs more memory than a photo should; save it again as an ordinary JPEG";
    case too_many_scans:
      return "it is stored in more than 100 passes; save it again as an ordinary JPEG";
    default:
      return damaged;
  }
}

class JpegRows final : public Rows {
 public:
  explicit JpegRows(std::string_view bytes) : bytes_(bytes) {
    info_.err = jpeg_std_error(&errors_);
    errors_.error_exit = on_jpeg_error;
    errors_.emit_message = on_jpeg_message;
    errors_.output_message = on_jpeg_output;
    info_.client_data = &escape_;
    progress_.progress_monitor = on_jpeg_progress;
  }
  ~JpegRows() override { jpeg_destroy_decompress(&info_); }

  bool open(int width, int height) override {
    if (!attempt([this] { read_head(); })) return false;
    if (!take_profile()) return false;
    if (!choose_colours()) return false;
    choose_scale(width, height);
    if (!attempt([this] { jpeg_start_decompress(&info_); })) return false;
    shape_.width = static_cast<int>(info_.output_width);
    shape_.height = static_cast<int>(info_.output_height);
    shape_.channels = info_.output_components;
    return true;
  }

  bool next(std::uint8_t* row) override {
    return attempt([this, row] {
      JSAMPROW rows[] = {row};
      jpeg_read_scanlines(&info_, rows, 1);
    });
  }

  bool close() override {
    return attempt([this] { jpeg_finish_decompress(&info_); });
  }

 private:
  template <class F>
  bool attempt(F step) {
    if (came_through(step)) return true;
    trouble_ = words_for(escape_.code);
    return false;
  }

  /// This frame and `step` own nothing: they may be left at any call.
  template <class F>
  bool came_through(F step) {
    if (setjmp(escape_.place) != 0) return false;  // NOLINT: see above
    step();
    return true;
  }

  void read_head() {
    jpeg_create_decompress(&info_);
    info_.mem->max_memory_to_use = max_memory;  // else the environment decides
    info_.progress = &progress_;
    jpeg_mem_src(&info_, reinterpret_cast<const unsigned char*>(bytes_.data()),
                 static_cast<unsigned long>(bytes_.size()));
    jpeg_save_markers(&info_, JPEG_APP0 + 2, 0xffff);
    jpeg_read_header(&info_, TRUE);
  }

  /// A profile that is damaged or endless is treated as absent: the pixels are whole all the same.
  bool take_profile() {
    JOCTET* data = nullptr;
    unsigned size = 0;
    if (!attempt([this, &data, &size] { jpeg_read_icc_profile(&info_, &data, &size); })) return false;
    if (data != nullptr && size <= max_profile) shape_.profile.assign(reinterpret_cast<const char*>(data), size);
    std::free(data);  // NOLINT: libjpeg's malloc
    return true;
  }

  bool choose_colours() {
    switch (info_.jpeg_color_space) {
      case JCS_GRAYSCALE:
        info_.out_color_space = JCS_GRAYSCALE;
        return true;
      case JCS_YCbCr:
      case JCS_RGB:
        info_.out_color_space = JCS_RGB;
        return true;
      case JCS_CMYK:
      case JCS_YCCK:
        info_.out_color_space = JCS_CMYK;
        shape_.inverted = info_.saw_Adobe_marker != 0;
        return true;
      default:
        trouble_ = "it is a JPEG with colours of an unknown kind; an ordinary JPEG or PNG is needed";
        return false;
    }
  }

  /// The smallest number of eighths that still gives the wanted size.
  void choose_scale(int width, int height) {
    const auto enough = [](JDIMENSION stored, unsigned eighths, int wanted) {
      return std::int64_t{stored} * eighths >= std::int64_t{wanted} * 8;
    };
    unsigned eighths = 1;
    while (eighths < 8 && !(enough(info_.image_width, eighths, width) && enough(info_.image_height, eighths, height)))
      ++eighths;
    info_.scale_num = eighths;
    info_.scale_denom = 8;
    info_.dct_method = JDCT_ISLOW;
  }

  std::string_view bytes_;
  jpeg_decompress_struct info_{};
  jpeg_error_mgr errors_{};
  jpeg_progress_mgr progress_{};
  Escape escape_{};
};

}  // namespace

std::unique_ptr<Rows> jpeg_rows(std::string_view bytes) { return std::make_unique<JpegRows>(bytes); }

}  // namespace soundsill::photo
