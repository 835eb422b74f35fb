// Serves pdf/fonts.h.
#include <stdexcept>

#include "pdf/fonts.h"
#include "source/utf8.h"

namespace soundsill::pdf {

namespace {

/// Letters that shape or break a text but are not read: nothing in the glyphs stands for them.
bool is_silent(char32_t letter) {
  return letter == 0xAD || (letter >= 0x200B && letter <= 0x200F) || letter == 0x2060 || letter == 0xFEFF;
}

std::u32string read_letters(std::string_view utf8) {
  std::u32string letters = utf8::decode(utf8);
  std::erase_if(letters, is_silent);
  return letters;
}

}  // namespace

std::vector<Cluster> clusters(const page::TextMark& mark) {
  std::vector<Cluster> result;
  const auto& glyphs = mark.glyphs;
  result.reserve(glyphs.size());
  for (std::size_t i = 0; i < glyphs.size();) {
    std::size_t end = i;
    while (end < glyphs.size() && glyphs[end].cluster == glyphs[i].cluster) {
      if (glyphs[end].id == 0)
        throw std::invalid_argument("`" + mark.text + "` has a letter that the face " + mark.face->name() + " lacks");
      ++end;
    }
    const std::size_t from = glyphs[i].cluster;
    const std::size_t to = end < glyphs.size() ? glyphs[end].cluster : mark.text.size();
    if (from >= to || to > mark.text.size())
      throw std::invalid_argument("the glyphs of `" + mark.text + "` do not belong to its letters");
    result.push_back({i, end, read_letters(std::string_view(mark.text).substr(from, to - from))});
    i = end;
  }
  return result;
}

}  // namespace soundsill::pdf
