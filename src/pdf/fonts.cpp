#include "pdf/fonts.h"

#include <algorithm>
#include <stdexcept>

#include "pdf/hash.h"

namespace soundsill::pdf {

namespace {

/// Font units to thousandths of 1/1000 em.
std::int64_t scaled(std::int64_t units, const font::Face& face) {
  return divide(units * 1'000'000, face.units_per_em());
}

std::string metric(const char* key, std::int64_t units, const font::Face& face) {
  // Whole thousandths of an em are as fine as these are used.
  return std::string(key) + " " + std::to_string(divide(units * 1000, face.units_per_em())) + " ";
}

constexpr std::size_t most_codes = 255;

std::string hex_of(std::size_t code) {
  constexpr std::string_view digits = "0123456789ABCDEF";
  return {digits[code >> 4U & 0xFU], digits[code & 0xFU]};
}

/// Code n means number n.
constexpr std::string_view code_map =
    "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
    "/CIDSystemInfo 3 dict dup begin /Registry (Adobe) def /Ordering (Identity) def /Supplement 0 def end def\n"
    "/CMapName /OneByte def\n/CMapType 1 def\n1 begincodespacerange\n<00> <FF>\nendcodespacerange\n"
    "1 begincidrange\n<00> <FF> 0\nendcidrange\nendcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";

constexpr std::string_view map_head =
    "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
    "/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n"
    "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n1 begincodespacerange\n<00> <FF>\nendcodespacerange\n";
constexpr std::string_view map_foot = "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
constexpr std::u32string_view soft_hyphen = U"\u00AD";

/// The lines of a table of letters, as many in a block as the format allows.
std::string lines_of(const std::string& kind, const std::vector<std::string>& lines) {
  constexpr std::size_t most = 100;
  std::string out;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (i % most == 0) out += std::to_string(std::min(lines.size() - i, most)) + " begin" + kind + "\n";
    out += lines[i];
    if ((i + 1) % most == 0 || i + 1 == lines.size()) out += "end" + kind + "\n";
  }
  return out;
}

}  // namespace

std::int64_t UsedFace::width(std::uint16_t glyph) const { return scaled(face_->advance(glyph), *face_); }

bool UsedFace::has_room(const std::vector<font::Glyph>& glyphs) const {
  const std::size_t room = most_codes - 1 - std::min(count_, most_codes - 1);  // one is kept for a space
  if (glyphs.size() <= room) return true;
  std::vector<std::uint16_t> more;
  for (const font::Glyph& glyph : glyphs)
    if (known(glyph.id) == 0) more.push_back(glyph.id);
  std::sort(more.begin(), more.end());
  const auto last = std::unique(more.begin(), more.end());
  return static_cast<std::size_t>(last - more.begin()) <= room;
}

std::uint8_t UsedFace::new_code(const std::u32string& letters) const {
  const char32_t own = letters.size() == 1 ? letters[0] : 0;
  const bool plain = (own >= ' ' && own <= '~') || (own > 0xA0 && own <= 0xFF);
  if (plain && used_[own].glyph == 0) return static_cast<std::uint8_t>(own);
  // From the top down: those below are sooner wanted by their letters.
  for (std::size_t code = most_codes; code > 0; --code)
    if (used_[code].glyph == 0) return static_cast<std::uint8_t>(code);
  throw std::invalid_argument("a line has more than 255 letters of one face");
}

std::vector<std::uint8_t> UsedFace::used_codes() const {
  std::vector<std::uint8_t> out;
  for (std::size_t code = 1; code <= most_codes; ++code)
    if (used_[code].glyph != 0) out.push_back(static_cast<std::uint8_t>(code));
  return out;
}

bool UsedFace::stands_for(std::uint16_t glyph, const std::u32string& letters) {
  if (known(glyph) == 0) {
    const std::uint8_t code = new_code(letters);
    if (glyph >= codes_.size()) codes_.resize(glyph + std::size_t{1});
    used_[code] = {glyph, letters};
    ++count_;
    codes_[glyph] = code;
  }
  std::u32string& before = used_[codes_[glyph]].letters;
  if (before.empty()) before = letters;  // so far it was only a hyphen that is not read
  return before == letters;
}

bool UsedFace::use(const Cluster& cluster, const std::vector<font::Glyph>& glyphs) {
  const std::size_t count = cluster.end - cluster.begin;
  const std::u32string& letters = cluster.letters;
  if (count == 1) return stands_for(glyphs[cluster.begin].id, letters) && !letters.empty();
  // A letter with its accent drawn apart, or the like.
  bool plain = count == letters.size();
  for (std::size_t i = 0; i < count; ++i) {
    const std::u32string one = letters.substr(std::min(i, letters.empty() ? 0 : letters.size() - 1), 1);
    if (!stands_for(glyphs[cluster.begin + i].id, one)) plain = false;
  }
  return plain;
}

std::string UsedFace::widths() const {
  std::string out = "[";
  int next = 0;
  for (const std::uint8_t code : used_codes()) {
    if (code != next) out += (next == 0 ? "" : "]") + std::to_string(code) + "[";
    put_number(out, width(used_[code].glyph));
    next = code + 1;
  }
  return out += "]]";
}

std::string UsedFace::to_unicode() const {
  std::vector<std::string> single, runs;
  const std::vector<std::uint8_t> codes = used_codes();
  for (std::size_t from = 0, next = 0; from < codes.size(); from = next) {
    const std::u32string& letters = used_[codes[from]].letters;
    // The codes between two that count alike may be said to stand for something: nothing uses them.
    for (++next; next < codes.size() && letters.size() == 1; ++next) {
      const std::u32string& others = used_[codes[next]].letters;
      if (others.size() != 1 || others[0] - letters[0] != char32_t(codes[next] - codes[from])) break;
    }
    const std::string read = " <" + utf16_hex(letters.empty() ? soft_hyphen : letters) + ">\n";
    const std::string code = "<" + hex_of(codes[from]) + ">";
    if (next == from + 1)
      single.push_back(code + read);
    else
      runs.push_back(code + " <" + hex_of(codes[next - 1]) + ">" + read);
  }
  return std::string(map_head) + lines_of("bfrange", runs) + lines_of("bfchar", single) + std::string(map_foot);
}

std::string UsedFace::subset_name() const {
  Fingerprint print;
  print.add(face_->postscript());
  for (const Used& one : used_)
    if (one.glyph != 0) print.add({reinterpret_cast<const char*>(&one.glyph), sizeof one.glyph});
  return print.six_letters() + "+" + face_->postscript();
}

/// One bit a code, the first in the highest place. The map to glyphs has an entry for every code up to the last that is
/// used; those between lead to glyph 0, which is in the face too, so that the set is complete only with all of them.
std::string UsedFace::cid_set() const {
  const std::size_t count = used_codes().back() + std::size_t{1};
  std::string bits((count + 7) / 8, '\0');
  for (std::size_t i = 0; i < count; ++i)
    bits[i / 8U] = static_cast<char>(static_cast<unsigned char>(bits[i / 8U]) | 0x80U >> (i % 8U));
  return bits;
}

std::string UsedFace::descriptor(const std::string& name) const {
  const font::Face& face = *face_;
  constexpr int symbolic = 4;  // glyphs are reached by number, not through an encoding of letters
  constexpr int italic = 64;
  const font::Face::Box box = face.bounding_box();
  std::string out = "/Type /FontDescriptor /FontName " + pdf::name(name) + " /Flags ";
  out += std::to_string(symbolic + (face.italic_angle() != 0 ? italic : 0)) + " ";
  out += metric("/FontBBox [", box.left, face) + metric("", box.bottom, face) + metric("", box.right, face) +
         metric("", box.top, face) + "] /ItalicAngle " + std::to_string(face.italic_angle()) + " ";
  out += metric("/Ascent", face.ascender(), face) + metric("/Descent", face.descender(), face) +
         metric("/CapHeight", face.cap_height(), face);
  return out + "/StemV 80";  // must be there; matters only when a face is not embedded
}

void UsedFace::write(File& file, Id codes, bool with_cid_set) const {
  const std::string name = subset_name();
  const std::vector<std::uint8_t> used = used_codes();
  std::vector<std::uint16_t> glyphs;
  for (const std::uint8_t code : used) glyphs.push_back(used_[code].glyph);
  const font::Subset small = face_->subset(glyphs);
  std::string numbers(2U * (used.back() + std::size_t{1}), '\0');
  for (std::size_t i = 0; i < used.size(); ++i) {
    const std::size_t at = 2 * std::size_t{used[i]};
    numbers[at] = static_cast<char>(small.numbers[i] >> 8U);
    numbers[at + 1] = static_cast<char>(small.numbers[i] & 0xFFU);
  }
  const Id program =
      file.add_stream("/Length1 " + std::to_string(small.bytes.size()), small.bytes, File::Packing::deflate);
  std::string described = descriptor(name) + " /FontFile2 " + reference(program);
  if (with_cid_set) described += " /CIDSet " + reference(file.add_stream("", cid_set(), File::Packing::deflate));
  const Id descriptor = file.add_dictionary(described);
  const Id to_glyphs = file.add_stream("", numbers, File::Packing::deflate);
  const Id descendant =
      file.add_dictionary("/Type /Font /Subtype /CIDFontType2 /CIDToGIDMap " + reference(to_glyphs) + " /BaseFont " +
                          pdf::name(name) + " /CIDSystemInfo <</Registry (Adobe) /Ordering (Identity) /Supplement 0>>" +
                          " /FontDescriptor " + reference(descriptor) + " /W " + widths());
  const Id map = file.add_stream("", to_unicode(), File::Packing::deflate);
  file.append(id_, "/Type /Font /Subtype /Type0 /BaseFont " + pdf::name(name) + " /Encoding " + reference(codes) +
                       " /DescendantFonts [" + reference(descendant) + "] /ToUnicode " + reference(map));
}

UsedFace& UsedFaces::use(const font::Face& face, const std::vector<font::Glyph>& glyphs) {
  const auto [place, is_new] = index_.emplace(&face, faces_.size());
  if (!is_new && faces_[place->second]->has_room(glyphs)) return *faces_[place->second];
  place->second = faces_.size();
  faces_.push_back(std::make_unique<UsedFace>(face, file_->add()));
  return *faces_.back();
}

void UsedFaces::write(bool with_cid_sets) const {
  if (faces_.empty()) return;
  const Id codes = file_->add_stream(
      "/Type /CMap /CMapName /OneByte /CIDSystemInfo <</Registry (Adobe) /Ordering (Identity) /Supplement 0>>",
      code_map, File::Packing::deflate);
  for (const auto& face : faces_) face->write(*file_, codes, with_cid_sets);
}

}  // namespace soundsill::pdf
