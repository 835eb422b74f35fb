#include "photo/heic.h"

#include <dlfcn.h>
#include <libheif/heif.h>

#include <cstring>

#include "photo/kind.h"

namespace soundsill::photo {

namespace {

constexpr const char* not_installed =
    "it is a HEIC photo, and the library that reads these is not installed (Debian package libheif1)";

/// The calls of libheif that are used. The library is never closed again: its decoders keep threads.
struct Heif {
#define SOUNDSILL_HEIF(call) decltype(&::call) call = nullptr;
#define SOUNDSILL_HEIF_CALLS(each)                                                                                  \
  each(heif_context_alloc) each(heif_context_free) each(heif_context_read_from_memory_without_copy)                 \
      each(heif_context_get_primary_image_handle) each(heif_image_handle_release) each(heif_image_handle_get_width) \
          each(heif_image_handle_get_height) each(heif_image_handle_get_color_profile_type)                         \
              each(heif_image_handle_get_raw_color_profile_size) each(heif_image_handle_get_raw_color_profile)      \
                  each(heif_image_handle_get_nclx_color_profile) each(heif_nclx_color_profile_free)                 \
                      each(heif_decode_image) each(heif_image_release) each(heif_image_get_plane_readonly)          \
                          each(heif_image_get_width) each(heif_image_get_height)
  SOUNDSILL_HEIF_CALLS(SOUNDSILL_HEIF)
#undef SOUNDSILL_HEIF
  bool there = false;

  Heif() {
    void* library = dlopen("libheif.so.1", RTLD_NOW | RTLD_LOCAL);
    if (library == nullptr) return;
    there = true;
#define SOUNDSILL_HEIF(call)                                         \
  call = reinterpret_cast<decltype(&::call)>(dlsym(library, #call)); \
  there = there && call != nullptr;
    SOUNDSILL_HEIF_CALLS(SOUNDSILL_HEIF)
#undef SOUNDSILL_HEIF
#undef SOUNDSILL_HEIF_CALLS
  }
};

const Heif& heif() {
  static const Heif loaded;
  return loaded;
}

std::string words_for(const heif_error& error) {
  if (error.subcode == heif_suberror_End_of_data) return cut_short;
  if (error.code == heif_error_Memory_allocation_error) return "it needs more memory than there is";
  if (error.code == heif_error_Unsupported_filetype || error.code == heif_error_Unsupported_feature)
    return "it is a HEIC photo of a kind that cannot be decoded here; an ordinary JPEG or PNG is needed";
  return damaged;
}

/// A container that was opened, with its main picture. Owns both.
class Container {
 public:
  Container() = default;
  Container(const Container&) = delete;
  Container& operator=(const Container&) = delete;
  ~Container() {
    if (picture_ != nullptr) heif().heif_image_handle_release(picture_);
    if (context_ != nullptr) heif().heif_context_free(context_);
  }

  /// What is wrong, else empty. `bytes` must stay.
  std::string open(std::string_view bytes) {
    if (!heif().there) return not_installed;
    context_ = heif().heif_context_alloc();
    heif_error error = heif().heif_context_read_from_memory_without_copy(context_, bytes.data(), bytes.size(), nullptr);
    if (error.code == heif_error_Ok) error = heif().heif_context_get_primary_image_handle(context_, &picture_);
    return error.code == heif_error_Ok ? std::string() : words_for(error);
  }

  [[nodiscard]] HeicSize size() const {
    return {heif().heif_image_handle_get_width(picture_), heif().heif_image_handle_get_height(picture_)};
  }
  [[nodiscard]] const heif_image_handle* picture() const { return picture_; }

 private:
  heif_context* context_ = nullptr;
  heif_image_handle* picture_ = nullptr;
};

class HeicRows final : public Rows {
 public:
  explicit HeicRows(std::string_view bytes) : bytes_(bytes) {}
  ~HeicRows() override {
    if (image_ != nullptr) heif().heif_image_release(image_);
  }

  bool open(int /*width*/, int /*height*/) override {
    trouble_ = container_.open(bytes_);
    if (!trouble_.empty()) return false;
    take_colours();
    const heif_error error = heif().heif_decode_image(container_.picture(), &image_, heif_colorspace_RGB,
                                                      heif_chroma_interleaved_RGB, nullptr);
    if (error.code != heif_error_Ok) return fail(words_for(error));
    pixels_ = heif().heif_image_get_plane_readonly(image_, heif_channel_interleaved, &stride_);
    if (pixels_ == nullptr) return fail(damaged);
    shape_.width = heif().heif_image_get_width(image_, heif_channel_interleaved);
    shape_.height = heif().heif_image_get_height(image_, heif_channel_interleaved);
    shape_.channels = 3;
    if (shape_.width < 1 || shape_.height < 1 || stride_ < shape_.width * 3) return fail(damaged);
    return true;
  }

  bool next(std::uint8_t* row) override {
    std::memcpy(row, pixels_ + static_cast<std::ptrdiff_t>(stride_) * row_number_++,
                static_cast<std::size_t>(shape_.width) * 3);
    return true;
  }

  bool close() override { return true; }

 private:
  bool fail(std::string words) {
    trouble_ = std::move(words);
    return false;
  }

  /// A profile, or the number of the primaries; a file with neither is taken for sRGB.
  void take_colours() {
    constexpr std::size_t max_profile = 4U << 20U;
    const auto type = heif().heif_image_handle_get_color_profile_type(container_.picture());
    if (type == heif_color_profile_type_rICC || type == heif_color_profile_type_prof) {
      const std::size_t size = heif().heif_image_handle_get_raw_color_profile_size(container_.picture());
      if (size == 0 || size > max_profile) return;
      shape_.profile.resize(size);
      if (heif().heif_image_handle_get_raw_color_profile(container_.picture(), shape_.profile.data()).code !=
          heif_error_Ok)
        shape_.profile.clear();
    } else if (type == heif_color_profile_type_nclx) {
      heif_color_profile_nclx* nclx = nullptr;
      if (heif().heif_image_handle_get_nclx_color_profile(container_.picture(), &nclx).code != heif_error_Ok) return;
      shape_.primaries = static_cast<int>(nclx->color_primaries);
      heif().heif_nclx_color_profile_free(nclx);
    }
  }

  std::string_view bytes_;
  Container container_;
  heif_image* image_ = nullptr;
  const std::uint8_t* pixels_ = nullptr;
  int stride_ = 0;
  int row_number_ = 0;
};

}  // namespace

Outcome<HeicSize> heic_size(std::string_view bytes) {
  Container container;
  if (std::string trouble = container.open(bytes); !trouble.empty()) return {std::nullopt, std::move(trouble)};
  return {container.size(), {}};
}

std::unique_ptr<Rows> heic_rows(std::string_view bytes) { return std::make_unique<HeicRows>(bytes); }

}  // namespace soundsill::photo
