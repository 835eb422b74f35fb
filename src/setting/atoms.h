// Texts cut into the pieces that a line either holds or does not.
#pragma once

#include <string>
#include <vector>

#include "setting/atom.h"
#include "setting/workshop.h"

namespace soundsill::page {

[[nodiscard]] std::vector<Atom> atoms_of(Workshop& shop, const document::Runs& runs, const TextStyle& style);
/// The same, kept for the one who asks next: what is measured for the widths of a table is soon set in it.
[[nodiscard]] const std::vector<Atom>& kept_atoms_of(Workshop& shop, const document::Runs& runs,
                                                     const TextStyle& style);
/// The same, with pieces wider than `width` broken between letters.
[[nodiscard]] std::vector<Atom> broken_to(Workshop& shop, std::vector<Atom> atoms, Milli size, Milli width);
void measure_atom(Atom& atom, Milli size);

}  // namespace soundsill::page
