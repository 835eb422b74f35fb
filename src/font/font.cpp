#include "font/font.h"

#include <hb-ot.h>
#include <hb.h>

#include <algorithm>
#include <array>
#include <limits>
#include <optional>
#include <stdexcept>
#include <unordered_map>

#include "font/handles.h"
#include "font/pairs.h"
#include "font/subset.h"

namespace soundsill::font {

namespace {

/// Lets the cache be asked with a view, without a copy.
struct TextHash : std::hash<std::string_view> {
  using is_transparent = void;
};

/// Big-endian number of two bytes; 0 past the end of the table.
int signed_16(const Blob& table, unsigned at) {
  unsigned length = 0;
  const auto* bytes = reinterpret_cast<const unsigned char*>(hb_blob_get_data(table.get(), &length));
  if (at + 2 > length) return 0;
  return static_cast<std::int16_t>(static_cast<std::uint16_t>(bytes[at] << 8U | bytes[at + 1]));
}

Blob table_of(hb_face_t* face, hb_tag_t tag) { return Blob(hb_face_reference_table(face, tag)); }

bool has_table(hb_face_t* face, hb_tag_t tag) { return hb_blob_get_length(table_of(face, tag).get()) > 0; }

/// The name as a PDF may carry it: letters, digits and hyphens.
std::string postscript_name(hb_face_t* face) {
  std::array<char, 128> text{};
  auto size = static_cast<unsigned>(text.size());
  hb_ot_name_get_utf8(face, HB_OT_NAME_ID_POSTSCRIPT_NAME, HB_LANGUAGE_INVALID, &size, text.data());
  std::string name;
  for (const char c : std::string_view(text.data()))
    if ((c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || c == '-') name += c;
  return name.empty() ? "Unnamed" : name;
}

void check(hb_face_t* face, const std::string& name) {
  const auto is_there = [&](const char* tag) { return has_table(face, hb_tag_from_string(tag, 4)); };
  const bool whole = is_there("head") && is_there("hhea") && is_there("hmtx") && is_there("maxp") && is_there("cmap");
  const bool drawn = is_there("glyf") && is_there("loca");
  const unsigned glyphs = hb_face_get_glyph_count(face);
  if (!whole || !drawn || glyphs == 0 || glyphs > std::numeric_limits<std::uint16_t>::max())
    throw std::runtime_error("the face `" + name + "` is no TrueType font");
}

/// What HarfBuzz knows of a font, and where it shapes.
struct Opened {
  FaceHandle face;
  FontHandle font;
  BufferHandle buffer;
  std::string postscript;

  explicit Opened(std::string_view bytes) {
    const Blob blob(
        hb_blob_create(bytes.data(), static_cast<unsigned>(bytes.size()), HB_MEMORY_MODE_READONLY, nullptr, nullptr));
    face.reset(hb_face_create(blob.get(), 0));
    font.reset(hb_font_create(face.get()));
    buffer.reset(hb_buffer_create());
    postscript = postscript_name(face.get());
  }
};

}  // namespace

/// Letters stay letters: each is one glyph, so files are smaller and their texts are searched and copied as they read.
constexpr hb_feature_t no_ligatures{HB_TAG('l', 'i', 'g', 'a'), 0, HB_FEATURE_GLOBAL_START, HB_FEATURE_GLOBAL_END};

struct Face::Inside {
  std::string name;
  std::string_view bytes;
  mutable std::optional<Opened> opened, opened_part;
  std::optional<Pairs> pairs;
  std::unordered_map<std::string, std::vector<Glyph>, TextHash, std::equal_to<>> shaped;
  mutable std::vector<int> advances;  // by glyph: asked for at every letter, so looked up once

  /// The whole font. One that was packed into pairs is known to be one: it is opened when it is first used, and many
  /// never are.
  [[nodiscard]] const Opened& open() const {
    if (opened) return *opened;
    opened.emplace(bytes);
    check(opened->face.get(), name);
    return *opened;
  }

  /// What has names, measures and the common glyphs: the part of the font, where there is one.
  [[nodiscard]] const Opened& open_part() const {
    if (!pairs) return open();
    if (!opened_part) opened_part.emplace(pairs->part());
    return *opened_part;
  }

  [[nodiscard]] const Opened& drawing(std::uint16_t glyph) const {
    return pairs && pairs->draws(glyph) ? open_part() : open();
  }

  [[nodiscard]] int metric(hb_ot_metrics_tag_t tag) const {
    hb_position_t value = 0;
    hb_ot_metrics_get_position_with_fallback(open_part().font.get(), tag, &value);
    return value;
  }

  std::vector<Glyph> shape(std::string_view utf8) const {
    if (auto known = pairs ? pairs->shape(utf8) : std::nullopt) return std::move(*known);
    hb_buffer_t* b = open().buffer.get();
    hb_buffer_reset(b);
    hb_buffer_set_flags(b, HB_BUFFER_FLAG_REMOVE_DEFAULT_IGNORABLES);
    const auto size = static_cast<int>(utf8.size());
    hb_buffer_add_utf8(b, utf8.data(), size, 0, size);
    hb_buffer_guess_segment_properties(b);
    hb_buffer_set_direction(b, HB_DIRECTION_LTR);
    // The guess takes the language of the machine, and with it other letter shapes: same input, same bytes.
    hb_buffer_set_language(b, hb_language_from_string("en", -1));
    hb_shape(open().font.get(), b, &no_ligatures, 1);
    return glyphs();
  }

  [[nodiscard]] std::vector<Glyph> glyphs() const {
    unsigned count = 0;
    const hb_glyph_info_t* infos = hb_buffer_get_glyph_infos(open().buffer.get(), &count);
    const hb_glyph_position_t* positions = hb_buffer_get_glyph_positions(open().buffer.get(), &count);
    std::vector<Glyph> result;
    result.reserve(count);
    for (unsigned i = 0; i < count; ++i) {
      const auto id = static_cast<std::uint16_t>(infos[i].codepoint);
      const int bare = advance(id);
      result.push_back({id, bare + coarse(positions[i].x_advance - bare), infos[i].cluster});
    }
    return result;
  }

  [[nodiscard]] int advance(std::uint16_t glyph) const {
    constexpr int unknown = std::numeric_limits<int>::min();
    if (glyph >= advances.size()) advances.resize(glyph + std::size_t{1}, unknown);
    int& known = advances[glyph];
    if (known == unknown) known = hb_font_get_glyph_h_advance(drawing(glyph).font.get(), glyph);
    return known;
  }

  [[nodiscard]] int units_per_em() const { return static_cast<int>(hb_face_get_upem(open_part().face.get())); }

  /// Kerning in whole fiftieths of an em: a tenth of a point in text of ten, about a printer's dot, is as near as the
  /// eye asks. What is finer would cut up every word on paper, and make files a fiftieth larger.
  [[nodiscard]] int coarse(int kern) const {
    constexpr int steps = 50;
    const int em = units_per_em();
    const int whole = (2 * std::abs(kern) * steps + em) / (2 * em) * em / steps;
    return kern < 0 ? -whole : whole;
  }
};

Face::Face(std::string name, std::string_view bytes, std::string_view pairs) : in_(std::make_unique<Inside>()) {
  in_->name = std::move(name);
  in_->bytes = bytes;
  if (pairs.empty())
    (void)in_->open();
  else
    in_->pairs.emplace(pairs);
}

Face::~Face() = default;

const std::string& Face::name() const { return in_->name; }
const std::string& Face::postscript() const { return in_->open_part().postscript; }
int Face::units_per_em() const { return in_->units_per_em(); }
int Face::ascender() const { return in_->metric(HB_OT_METRICS_TAG_HORIZONTAL_ASCENDER); }
int Face::descender() const { return in_->metric(HB_OT_METRICS_TAG_HORIZONTAL_DESCENDER); }
int Face::cap_height() const { return in_->metric(HB_OT_METRICS_TAG_CAP_HEIGHT); }
int Face::x_height() const { return in_->metric(HB_OT_METRICS_TAG_X_HEIGHT); }
int Face::italic_angle() const {
  return signed_16(table_of(in_->open_part().face.get(), HB_TAG('p', 'o', 's', 't')), 4);
}

Face::Box Face::bounding_box() const {
  const Blob head = table_of(in_->open_part().face.get(), HB_TAG('h', 'e', 'a', 'd'));
  return {signed_16(head, 36), signed_16(head, 38), signed_16(head, 40), signed_16(head, 42)};
}

int Face::advance(std::uint16_t glyph) const { return in_->advance(glyph); }

bool Face::has(char32_t letter) const {
  hb_codepoint_t glyph = 0;
  return hb_font_get_nominal_glyph(in_->open().font.get(), letter, &glyph) != 0 && glyph != 0;
}

const std::vector<Glyph>& Face::shape(std::string_view utf8) const {
  const auto found = in_->shaped.find(utf8);
  if (found != in_->shaped.end()) return found->second;
  return in_->shaped.emplace(std::string(utf8), in_->shape(utf8)).first->second;
}

std::int64_t Face::width(std::string_view utf8) const {
  std::int64_t sum = 0;
  for (const Glyph& glyph : shape(utf8)) sum += glyph.advance;
  return sum;
}

Subset Face::subset(const std::vector<std::uint16_t>& glyphs) const {
  const bool common = std::all_of(glyphs.begin(), glyphs.end(),
                                  [&](std::uint16_t glyph) { return in_->pairs && in_->pairs->draws(glyph); });
  return font::subset((common ? in_->open_part() : in_->open()).face.get(), glyphs, in_->name);
}

std::string Face::part(const std::vector<std::uint16_t>& glyphs) const {
  return font::part(in_->open().face.get(), glyphs, in_->name);
}

}  // namespace soundsill::font
