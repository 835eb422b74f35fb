// The faces of the file: which glyphs are used, what letters they stand for, and the objects that say so.
#pragma once

#include <array>
#include <map>
#include <string>
#include <vector>

#include "pages/pages.h"
#include "pdf/file.h"

namespace soundsill::pdf {

/// Glyphs that stand for some letters together: one letter as a rule, several in a ligature.
struct Cluster {
  std::size_t begin = 0, end = 0;  ///< glyphs of the mark
  std::u32string letters;
};

/// The clusters of a text mark. Throws std::invalid_argument when a glyph is 0 or points outside the text.
[[nodiscard]] std::vector<Cluster> clusters(const page::TextMark& mark);

/// One font of the file: up to 255 glyphs of a face. Each has a code of one byte: its letter's own number where that is
/// one byte, so that a word has the same codes in all faces and packs well; all others get what is left. Files are a
/// tenth smaller than with the two-byte numbers of the face.
class UsedFace {
 public:
  UsedFace(const font::Face& face, Id id) : face_(&face), id_(id) {}

  /// Whether there are codes left for all of these.
  [[nodiscard]] bool has_room(const std::vector<font::Glyph>& glyphs) const;
  /// The code of a glyph that was used; never 0.
  [[nodiscard]] char code(std::uint16_t glyph) const { return static_cast<char>(codes_[glyph]); }

  [[nodiscard]] Id id() const { return id_; }
  [[nodiscard]] const font::Face& face() const { return *face_; }

  /// Width of a glyph in thousandths of 1/1000 em, as the file states it.
  [[nodiscard]] std::int64_t width(std::uint16_t glyph) const;
  /// Notes the glyphs of a cluster. False when a reader could not tell the letters from the glyphs, because one of them
  /// stands for other letters elsewhere: then the letters must be written beside them.
  bool use(const Cluster& cluster, const std::vector<font::Glyph>& glyphs);

  /// `codes` is the object that says what a code is.
  void write(File& file, Id codes, bool with_cid_set) const;

 private:
  struct Used {
    std::uint16_t glyph = 0;
    std::u32string letters;
  };

  bool stands_for(std::uint16_t glyph, const std::u32string& letters);
  [[nodiscard]] std::uint8_t known(std::uint16_t glyph) const { return glyph < codes_.size() ? codes_[glyph] : 0; }
  [[nodiscard]] std::uint8_t new_code(const std::u32string& letters) const;
  [[nodiscard]] std::vector<std::uint8_t> used_codes() const;  ///< from the lowest up
  [[nodiscard]] std::string widths() const;
  [[nodiscard]] std::string to_unicode() const;
  [[nodiscard]] std::string subset_name() const;
  [[nodiscard]] std::string cid_set() const;
  [[nodiscard]] std::string descriptor(const std::string& name) const;

  const font::Face* face_;
  Id id_;
  std::array<Used, 256> used_;       // by code; a code that is free has glyph 0
  std::size_t count_ = 0;            // of those that are not free
  std::vector<std::uint8_t> codes_;  // by glyph; 0 of one that is not used
};

/// All faces, in the order of their first use.
class UsedFaces {
 public:
  explicit UsedFaces(File& file) : file_(&file) {}
  /// A font of the face that has room for these glyphs.
  UsedFace& use(const font::Face& face, const std::vector<font::Glyph>& glyphs);
  void write(bool with_cid_sets) const;

 private:
  File* file_;
  std::map<const font::Face*, std::size_t> index_;  // looked up only: addresses never decide an order
  std::vector<std::unique_ptr<UsedFace>> faces_;
};

}  // namespace soundsill::pdf
