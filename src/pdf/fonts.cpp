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
constexpr std::size_t lines_a_block = 100;  // as many as the format allows

}  // namespace

std::int64_t UsedFace::width(std::uint16_t glyph) const { return scaled(face_->advance(glyph), *face_); }

bool UsedFace::has_room(const std::vector<font::Glyph>& glyphs) const {
  const std::size_t room = most_codes - 1 - std::min(used_.size(), most_codes - 1);  // one is kept for a space
  if (glyphs.size() <= room) return true;
  std::vector<std::uint16_t> more;
  for (const font::Glyph& glyph : glyphs)
    if (known(glyph.id) == 0) more.push_back(glyph.id);
  std::sort(more.begin(), more.end());
  const auto last = std::unique(more.begin(), more.end());
  return static_cast<std::size_t>(last - more.begin()) <= room;
}

bool UsedFace::stands_for(std::uint16_t glyph, const std::u32string& letters) {
  if (known(glyph) == 0) {
    if (used_.size() == most_codes) throw std::invalid_argument("a line has more than 255 letters of one face");
    if (glyph >= codes_.size()) codes_.resize(glyph + std::size_t{1});
    used_.push_back({glyph, letters});
    codes_[glyph] = static_cast<std::uint8_t>(used_.size());
  }
  std::u32string& before = used_[codes_[glyph] - std::size_t{1}].letters;
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
  std::string out = "[1 [";
  for (const Used& one : used_) put_number(out, width(one.glyph));
  return out += "]]";
}

std::string UsedFace::to_unicode() const {
  std::string out(map_head);
  for (std::size_t i = 0; i < used_.size(); ++i) {
    if (i % lines_a_block == 0) out += std::to_string(std::min(used_.size() - i, lines_a_block)) + " beginbfchar\n";
    const std::u32string& letters = used_[i].letters;
    out += "<" + hex_of(i + 1) + "> <" + utf16_hex(letters.empty() ? soft_hyphen : letters) + ">\n";
    if ((i + 1) % lines_a_block == 0 || i + 1 == used_.size()) out += "endbfchar\n";
  }
  return out += map_foot;
}

std::string UsedFace::subset_name() const {
  Fingerprint print;
  print.add(face_->postscript());
  for (const Used& one : used_) print.add({reinterpret_cast<const char*>(&one.glyph), sizeof one.glyph});
  return print.six_letters() + "+" + face_->postscript();
}

/// One bit a number, the first in the highest place; every number up to the last code has a glyph.
std::string UsedFace::cid_set() const {
  std::string bits;
  for (std::size_t i = 0; i <= used_.size(); ++i) {
    bits.resize(std::max(bits.size(), i / 8U + 1U));
    bits[i / 8U] = static_cast<char>(static_cast<unsigned char>(bits[i / 8U]) | 0x80U >> (i % 8U));
  }
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
  std::vector<std::uint16_t> glyphs;
  for (const Used& one : used_) glyphs.push_back(one.glyph);
  const font::Subset small = face_->subset(glyphs);
  std::string numbers(2, '\0');
  for (const std::uint16_t number : small.numbers) {
    numbers += static_cast<char>(number >> 8U);
    numbers += static_cast<char>(number & 0xFFU);
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
