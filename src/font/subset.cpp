#include "font/subset.h"

#include <hb-subset.h>

#include <stdexcept>

#include "font/handles.h"

namespace soundsill::font {

namespace {

using Input = std::unique_ptr<hb_subset_input_t, Destroy<hb_subset_input_destroy>>;
using Plan = std::unique_ptr<hb_subset_plan_t, Destroy<hb_subset_plan_destroy>>;

using Tables = std::vector<const char*>;

/// What shapes a text.
const Tables of_shaping{"GSUB", "GPOS", "GDEF", "cmap", "kern"};
/// A PDF reaches glyphs by number and has widths and letters elsewhere: it needs no names and measures either.
const Tables needless{"GSUB", "GPOS", "GDEF", "cmap", "kern", "name", "post", "OS/2"};

template <class T>
T made(T object, const std::string& face) {
  if (!object) throw std::runtime_error("no subset can be made of the face `" + face + "`");
  return object;
}

Plan plan(hb_face_t* face, const std::vector<std::uint16_t>& glyphs, const Tables& dropped, unsigned flags,
          const std::string& name) {
  const Input input = made(Input(hb_subset_input_create_or_fail()), name);
  hb_subset_input_set_flags(input.get(), HB_SUBSET_FLAGS_NO_HINTING | HB_SUBSET_FLAGS_NOTDEF_OUTLINE | flags);
  hb_set_t* tables = hb_subset_input_set(input.get(), HB_SUBSET_SETS_DROP_TABLE_TAG);
  for (const char* tag : dropped) hb_set_add(tables, hb_tag_from_string(tag, -1));
  hb_set_t* wanted = hb_subset_input_glyph_set(input.get());
  for (const std::uint16_t glyph : glyphs) hb_set_add(wanted, glyph);
  return made(Plan(hb_subset_plan_create_or_fail(face, input.get())), name);
}

std::string executed(const Plan& steps, const std::string& name) {
  const FaceHandle small = made(FaceHandle(hb_subset_plan_execute_or_fail(steps.get())), name);
  const Blob blob(hb_face_reference_blob(small.get()));
  unsigned length = 0;
  const char* bytes = hb_blob_get_data(blob.get(), &length);
  return {bytes, length};
}

}  // namespace

std::string part(hb_face_t* face, const std::vector<std::uint16_t>& glyphs, const std::string& name) {
  return executed(plan(face, glyphs, of_shaping, HB_SUBSET_FLAGS_RETAIN_GIDS, name), name);
}

Subset subset(hb_face_t* face, const std::vector<std::uint16_t>& glyphs, const std::string& name) {
  const Plan steps = plan(face, glyphs, needless, 0, name);
  Subset out{executed(steps, name), {}};
  const hb_map_t* numbers = hb_subset_plan_old_to_new_glyph_mapping(steps.get());
  for (const std::uint16_t glyph : glyphs)
    out.numbers.push_back(static_cast<std::uint16_t>(hb_map_get(numbers, glyph)));
  return out;
}

}  // namespace soundsill::font
