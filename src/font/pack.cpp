#include "font/pack.h"

#include <hb-subset.h>

#include <initializer_list>
#include <memory>
#include <stdexcept>

#include "font/handles.h"

namespace soundsill::font {
namespace {

using Input = std::unique_ptr<hb_subset_input_t, Destroy<hb_subset_input_destroy>>;

void add(hb_subset_input_t* input, hb_subset_sets_t which, std::initializer_list<const char*> tables) {
  for (const char* tag : tables) hb_set_add(hb_subset_input_set(input, which), hb_tag_from_string(tag, -1));
}

}  // namespace

std::string pack_face(std::string_view bytes, const std::string& name) {
  const Blob file(
      hb_blob_create(bytes.data(), static_cast<unsigned>(bytes.size()), HB_MEMORY_MODE_READONLY, nullptr, nullptr));
  const FaceHandle face(hb_face_create(file.get(), 0));
  const Input input(hb_subset_input_create_or_fail());
  if (!input || hb_face_get_glyph_count(face.get()) == 0) throw std::runtime_error("`" + name + "` is no font");
  hb_subset_input_set_flags(input.get(),
                            HB_SUBSET_FLAGS_NO_HINTING | HB_SUBSET_FLAGS_NOTDEF_OUTLINE | HB_SUBSET_FLAGS_RETAIN_GIDS);
  hb_set_invert(hb_subset_input_glyph_set(input.get()));
  hb_set_invert(hb_subset_input_unicode_set(input.get()));
  hb_set_invert(hb_subset_input_set(input.get(), HB_SUBSET_SETS_NAME_ID));
  // The tables of shaping stay as they are: glyphs keep their numbers.
  add(input.get(), HB_SUBSET_SETS_NO_SUBSET_TABLE_TAG, {"GSUB", "GPOS", "GDEF"});
  add(input.get(), HB_SUBSET_SETS_DROP_TABLE_TAG, {"kern", "DSIG", "hdmx", "VDMX", "LTSH"});
  const FaceHandle small(hb_subset_or_fail(face.get(), input.get()));
  if (!small) throw std::runtime_error("`" + name + "` cannot be packed");
  const Blob packed(hb_face_reference_blob(small.get()));
  unsigned length = 0;
  const char* data = hb_blob_get_data(packed.get(), &length);
  return {data, length};
}

}  // namespace soundsill::font
