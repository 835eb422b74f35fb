// The smallest pieces of a paragraph: text of one look and one face that a line either holds or does not.
#pragma once

#include <string>
#include <vector>

#include "page/workshop.h"

namespace soundsill::page {

struct Atom {
  enum class Break { no, may, must, hyphen };  ///< hyphen: a line may end here when a hyphen is put
  std::string text;                            ///< with the spaces at its end
  const font::Face* face = nullptr;
  std::size_t run = 0;
  Milli width = 0;  ///< with the spaces at its end
  Milli ink = 0;    ///< without
  Break after = Break::no;
};

/// A letter of a UTF-8 text and how many bytes it takes. Bytes that are no UTF-8 read as single unknown letters.
struct Letter {
  char32_t code;
  std::size_t bytes;
};
[[nodiscard]] Letter letter_at(std::string_view text, std::size_t offset);

[[nodiscard]] std::vector<Atom> atoms_of(Workshop& shop, const document::Runs& runs, const TextStyle& style);
/// The same, with pieces wider than `width` broken between letters.
[[nodiscard]] std::vector<Atom> broken_to(Workshop& shop, std::vector<Atom> atoms, Milli size, Milli width);
void measure_atom(Atom& atom, Milli size);

}  // namespace soundsill::page
