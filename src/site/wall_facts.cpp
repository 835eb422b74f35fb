// Serves site/draft.h. What the `walls` list says of each wall.
#include <algorithm>

#include "site/draft.h"
#include "site/words.h"

namespace soundsill::plan {
namespace {

constexpr Length thickest = Length::feet(3);

// Which numbered block gave a field of a wall, so that a second one is noticed.
struct Givers {
  std::optional<Span> kind, thick, footing_outside, footing_inside;
};

struct KnownDepths {
  std::optional<KnownBy> outside, inside;
};

class Facts {
 public:
  Facts(Draft& draft, Faults& faults)
      : draft_(draft), faults_(faults), givers_(draft.made.walls.size()), known_(draft.made.walls.size()) {}

  void apply() {
    const std::vector<WallFacts>& blocks = items(draft_.facts->walls);
    for (const WallFacts& block : blocks) {
      check_thickness(block);
      if (!block.footing) continue;
      check_footing(block.footing->outside, block.footing->outside_to, "outside");
      check_footing(block.footing->inside, block.footing->inside_to, "inside");
    }
    for (const WallFacts& block : blocks)
      if (block.walls && block.walls->all)
        for (std::size_t i = 0; i < givers_.size(); ++i) take(i, block, number_of(block));
    for (const WallFacts& block : blocks)
      if (block.walls && !block.walls->all) apply_numbered(block);
    settle_known();
  }

 private:
  void bad_wall(const Span& at, std::string what, std::string why, std::string fix) {
    faults_.add(Rule::bad_wall, at, std::move(what), std::move(why), std::move(fix));
  }

  static bool fits(const WallFacts& block) {
    return block.thick && *block.thick > Length{} && *block.thick <= thickest;
  }

  void check_thickness(const WallFacts& block) {
    if (!block.thick || fits(block)) return;
    const bool none = *block.thick <= Length{};
    bad_wall(
        block.thick.at,
        none ? "a wall cannot be " + soundsill::print(*block.thick) + " thick"
             : soundsill::print(*block.thick) + " is thicker than any foundation wall (3 ft)",
        "the inside length is worked out from the thickness, and gallons and price from that",
        none ? "write the thickness as measured, or leave `thick` out" : "write the thickness as measured, like 8\"");
  }

  void apply_numbered(const WallFacts& block) {
    std::vector<int> seen;
    for (const WallStretch& item : block.walls->some) {
      if (!usable(item, seen)) continue;
      seen.push_back(item.wall);
      const auto i = static_cast<std::size_t>(item.wall - 1);
      note_givers(i, block, item);
      take(i, block, number_of(block));
    }
  }

  bool usable(const WallStretch& item, const std::vector<int>& seen) {
    const SurveyedStructure& s = draft_.made;
    if (!s.wall(item.wall)) {
      if (s.complete)
        bad_wall(item.at, no_such("wall", item.wall, s.walls.size()), "what is said here would reach no wall on paper",
                 "name a wall of the outline; walls count from 1 in the order walked, through all parts");
      return false;
    }
    if (item.from || item.to) {
      bad_wall(item.at, "facts of wall " + std::to_string(item.wall) + " are given for a stretch of it",
               "thickness and footing hold for whole walls, so that the rest would be left without",
               "walk it as two walls in the outline, and give each its facts");
      return false;
    }
    if (std::find(seen.begin(), seen.end(), item.wall) == seen.end()) return true;
    bad_wall(item.at, "wall " + std::to_string(item.wall) + " is named twice here",
             "a number typed twice often stands for another wall, which is left without facts", "name each wall once");
    return false;
  }

  void note_giver(std::optional<Span>& giver, bool is_given, const WallStretch& item, const char* key) {
    if (!is_given) return;
    if (giver) {
      Diagnostic d{
          Rule::bad_wall, item.at, {}, "which of the two holds cannot be told, and gallons hang on it", {}, {}};
      d.what = "`" + std::string(key) + "` of wall " + std::to_string(item.wall) + " is given twice";
      d.fix = "leave wall " + std::to_string(item.wall) + " in the block whose `" + key +
              "` is right, and out of the other";
      d.see.push_back({*giver, "it is given here too"});
      faults_.add(std::move(d));
    }
    giver = item.at;
  }

  void note_givers(std::size_t i, const WallFacts& block, const WallStretch& item) {
    Givers& g = givers_[i];
    note_giver(g.kind, given(block.kind), item, "kind");
    note_giver(g.thick, given(block.thick), item, "thick");
    if (!block.footing) return;
    const bool both =
        g.footing_outside && g.footing_inside && given(block.footing->outside) && given(block.footing->inside);
    note_giver(g.footing_outside, given(block.footing->outside), item, both ? "footing" : "footing: {outside}");
    if (both)
      g.footing_inside = item.at;  // said once is enough
    else
      note_giver(g.footing_inside, given(block.footing->inside), item, "footing: {inside}");
  }

  [[nodiscard]] std::size_t number_of(const WallFacts& block) const {
    return static_cast<std::size_t>(&block - items(draft_.facts->walls).data());
  }

  void take(std::size_t i, const WallFacts& block, std::size_t number) {
    Wall& wall = draft_.made.walls[i];
    wall.facts = &block;
    if (block.kind) {
      wall.kind = *block.kind;
      wall.kind_block = number;
    }
    if (block.adjoins) {
      wall.beside_neighbor = *block.adjoins == Adjoins::neighbor;
      wall.beside_slab = *block.adjoins == Adjoins::slab;
    }
    if (given(block.thick)) {
      draft_.walls[i].thickness_faulty = !fits(block);
      wall.thick = fits(block) ? std::optional(*block.thick) : std::nullopt;
    }
    if (block.footing) take_footing(wall, known_[i], *block.footing, number);
  }

  static std::optional<Length> sloping(const Field<Length>& from, const Field<Length>& to) {
    return to && *to != *from ? std::optional(*to) : std::nullopt;
  }

  void check_footing(const Field<Length>& from, const Field<Length>& to, const char* side) {
    if (to && !given(from))
      bad_wall(to.at, "a footing slopes to " + soundsill::print(*to) + ", but from no depth",
               "the depth in between decides the gallons",
               "write `" + std::string(side) + ":` too, where the wall begins");
    for (const Field<Length>* depth : {&from, &to})
      if (*depth && **depth <= Length{})
        faults_.add(Rule::footing_exposed, depth->at,
                    "a footing that lies " + soundsill::print(**depth) + " deep lies at or above grade",
                    "there would be no soil above it to treat, and a footing that shows has to be mended first",
                    "measure from the soil down to the top of the footing, or say in a finding that it shows");
  }

  // `known by` speaks of the depths of its own block; alone, of both.
  static void take_footing(Wall& wall, KnownDepths& known, const Footing& footing, std::size_t block) {
    const bool alone = !given(footing.outside) && !given(footing.inside);
    if (footing.outside) wall.footing_outside = *footing.outside;
    if (footing.inside) wall.footing_inside = *footing.inside;
    if (footing.outside) wall.footing_outside_to = sloping(footing.outside, footing.outside_to);
    if (footing.inside) wall.footing_inside_to = sloping(footing.inside, footing.inside_to);
    if (footing.outside) wall.outside_block = block;
    if (footing.inside) wall.inside_block = block;
    if (!footing.known_by) return;
    if (footing.outside || alone) known.outside = *footing.known_by;
    if (footing.inside || alone) known.inside = *footing.known_by;
  }

  void settle_known() {
    for (std::size_t i = 0; i < known_.size(); ++i) {
      Wall& wall = draft_.made.walls[i];
      if (wall.footing_outside || !wall.footing_inside) wall.known_by = known_[i].outside;
      if (wall.footing_inside && known_[i].inside && (!wall.known_by || *known_[i].inside > *wall.known_by))
        wall.known_by = known_[i].inside;
    }
  }

  Draft& draft_;
  Faults& faults_;
  std::vector<Givers> givers_;
  std::vector<KnownDepths> known_;
};

}  // namespace

void apply_wall_facts(Draft& draft, Faults& faults) { Facts(draft, faults).apply(); }

}  // namespace soundsill::plan
