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

std::string hex_of(std::uint16_t glyph) {
  const char32_t letter = glyph;
  return utf16_hex({&letter, 1});
}

constexpr std::string_view map_head =
    "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
    "/CIDSystemInfo <</Registry (Adobe) /Ordering (UCS) /Supplement 0>> def\n"
    "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n";
constexpr std::string_view map_foot = "endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n";
constexpr std::u32string_view soft_hyphen = U"\u00AD";
constexpr std::size_t lines_a_block = 100;  // as many as the format allows

}  // namespace

std::int64_t UsedFace::width(std::uint16_t glyph) const { return scaled(face_->advance(glyph), *face_); }

bool UsedFace::stands_for(std::uint16_t glyph, const std::u32string& letters) {
  std::u32string& known = letters_.try_emplace(glyph, letters).first->second;
  if (known.empty()) known = letters;  // so far it was only a hyphen that is not read
  return known == letters;
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

std::set<std::uint16_t> UsedFace::glyphs() const {
  std::set<std::uint16_t> result;
  for (const auto& [glyph, letters] : letters_) result.insert(glyph);
  return result;
}

/// "[3 [500 600] 9 [250]]": runs of neighbours share a bracket.
std::string UsedFace::widths() const {
  std::string out = "[";
  int last = -2;
  for (const auto& [glyph, letters] : letters_) {
    if (glyph != last + 1) {
      if (last >= 0) out += "] ";
      out += std::to_string(glyph) + " [";
    } else {
      out += ' ';
    }
    put(out, width(glyph));
    last = glyph;
  }
  return out += last >= 0 ? "]]" : "]";
}

std::string UsedFace::to_unicode() const {
  std::string out(map_head);
  std::size_t left = letters_.size();
  std::size_t in_block = 0;
  for (const auto& [glyph, letters] : letters_) {
    if (in_block == 0) {
      in_block = std::min(left, lines_a_block);
      left -= in_block;
      out += std::to_string(in_block) + " beginbfchar\n";
    }
    out += "<" + hex_of(glyph) + "> <" + utf16_hex(letters.empty() ? soft_hyphen : letters) + ">\n";
    if (--in_block == 0) out += "endbfchar\n";
  }
  return out += map_foot;
}

std::string UsedFace::subset_name() const {
  Fingerprint print;
  print.add(face_->postscript());
  for (const auto& [glyph, letters] : letters_) print.add(hex_of(glyph));
  return print.six_letters() + "+" + face_->postscript();
}

/// One bit a glyph, the first in the highest place.
std::string UsedFace::cid_set() const {
  std::string bits;
  for (const std::uint16_t glyph : face_->closure(glyphs())) {
    bits.resize(std::max<std::size_t>(bits.size(), glyph / 8U + 1U));
    bits[glyph / 8U] = static_cast<char>(static_cast<unsigned char>(bits[glyph / 8U]) | 0x80U >> (glyph % 8U));
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

void UsedFace::write(File& file, bool with_cid_set) const {
  const bool cff = face_->is_cff();
  if (cff && with_cid_set) throw std::invalid_argument("PDF/A-1 carries no face of the kind of " + face_->postscript());
  const std::string name = subset_name();
  const std::string bytes = face_->subset(glyphs());
  const std::string kind = cff ? "/Subtype /OpenType" : "/Length1 " + std::to_string(bytes.size());
  const Id program = file.add_stream(kind, bytes, File::Packing::deflate);
  std::string described = descriptor(name) + (cff ? " /FontFile3 " : " /FontFile2 ") + reference(program);
  if (with_cid_set) described += " /CIDSet " + reference(file.add_stream("", cid_set(), File::Packing::deflate));
  const Id descriptor = file.add_dictionary(described);
  const Id descendant = file.add_dictionary(
      std::string("/Type /Font /Subtype ") + (cff ? "/CIDFontType0" : "/CIDFontType2 /CIDToGIDMap /Identity") +
      " /BaseFont " + pdf::name(name) + " /CIDSystemInfo <</Registry (Adobe) /Ordering (Identity) /Supplement 0>>" +
      " /FontDescriptor " + reference(descriptor) + " /W " + widths());
  const Id map = file.add_stream("", to_unicode(), File::Packing::deflate);
  file.append(id_, "/Type /Font /Subtype /Type0 /BaseFont " + pdf::name(name) +
                       " /Encoding /Identity-H /DescendantFonts [" + reference(descendant) + "] /ToUnicode " +
                       reference(map));
}

UsedFace& UsedFaces::use(const font::Face& face) {
  const auto [place, is_new] = index_.emplace(&face, faces_.size());
  if (is_new) faces_.push_back(std::make_unique<UsedFace>(face, file_->add()));
  return *faces_[place->second];
}

void UsedFaces::write(bool with_cid_sets) const {
  for (const auto& face : faces_) face->write(*file_, with_cid_sets);
}

}  // namespace soundsill::pdf
