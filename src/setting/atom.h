// The smallest piece of a paragraph: text of one look and one face that a line either holds or does not.
#pragma once

#include <string>

#include "pages/pages.h"

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

}  // namespace soundsill::page
