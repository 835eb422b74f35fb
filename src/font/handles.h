// Owners of HarfBuzz objects. Not for use outside this folder.
#pragma once

#include <hb.h>

#include <memory>

namespace soundsill::font {

template <auto destroy>
struct Destroy {
  template <class T>
  void operator()(T* object) const {
    destroy(object);
  }
};

using Blob = std::unique_ptr<hb_blob_t, Destroy<hb_blob_destroy>>;
using FaceHandle = std::unique_ptr<hb_face_t, Destroy<hb_face_destroy>>;
using FontHandle = std::unique_ptr<hb_font_t, Destroy<hb_font_destroy>>;
using BufferHandle = std::unique_ptr<hb_buffer_t, Destroy<hb_buffer_destroy>>;

}  // namespace soundsill::font
