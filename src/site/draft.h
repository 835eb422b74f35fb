// What the steps of measuring one structure hand to each other.
#pragma once

#include <vector>

#include "casefile/case.h"
#include "site/outline.h"
#include "site/overlay.h"
#include "site/survey.h"

namespace soundsill::plan {

/// A piece of a wall's inside face, as walked.
struct Face {
  Real from, to;
};

/// Written or set: facts made by code have values without places.
template <class T>
[[nodiscard]] bool given(const Field<T>& field) {
  return field.written() || field;
}

struct WallDraft {
  Span at;
  bool thickness_faulty = false;  ///< unreadable or reported already
  std::vector<Stretch> bands;     ///< where its thickness is taken from its own part
  std::vector<Face> faces;        ///< its inside face
};

struct PartDraft {
  const Part* facts = nullptr;
  Walk walk;
  std::size_t first = 0, count = 0;  ///< its walls among those of the structure
  std::vector<Ring> rooms;           ///< where piers may stand; empty when not known
};

struct Draft {
  const Structure* facts = nullptr;
  SurveyedStructure made;
  std::vector<PartDraft> parts;
  std::vector<WallDraft> walls;  ///< alongside made.walls
};

/// Takes over what needs no measuring: names, kinds, soil, lists of things, spans.
void take_typed(Draft& draft);
[[nodiscard]] SurveyedPartition typed(const Partition& facts);
[[nodiscard]] SurveyedPilaster typed(const Pilaster& facts);
[[nodiscard]] SurveyedSlab typed(const Slab& facts);

// The steps, in this order. Each reports its faults and leaves out what it could not make.
void walk_parts(Draft& draft, Faults& faults);
void apply_wall_facts(Draft& draft, Faults& faults);
void find_shared(Draft& draft, Faults& faults);
void find_insides(Draft& draft, Faults& faults);
void find_partitions(Draft& draft, Faults& faults);
void place_pilasters(Draft& draft, Faults& faults);
void find_slabs(Draft& draft, Faults& faults);
void add_up(Draft& draft, Faults& faults);
void place_piers(Draft& draft, Faults& faults);
void check_alongs(Draft& draft, Faults& faults);
void count_seen(Draft& draft, Faults& faults);

/// A strip along a stretch of a wall's outside line, `across` wide: inward, or outward for `out`.
[[nodiscard]] Ring strip(const SurveyedStructure& s, const Wall& wall, Length a, Length b, Length across, bool out);
/// The direction in which a wall's inside lies, as long as the wall.
[[nodiscard]] Vec inward(const SurveyedStructure& s, const Wall& wall);
/// What lies of `wall` along the line from a to b; empty when they do not run side by side.
[[nodiscard]] Stretch stretch_beside(const Wall& wall, Vec a, Vec b);
/// Stretches of one wall less others of the same.
[[nodiscard]] std::vector<Stretch> without(const std::vector<Stretch>& from, const std::vector<Stretch>& less);
/// What two lists of stretches of the same walls have in common.
[[nodiscard]] std::vector<Stretch> common(const std::vector<Stretch>& a, const std::vector<Stretch>& b);

}  // namespace soundsill::plan
