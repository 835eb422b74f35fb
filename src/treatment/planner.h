// Shared by the files that plan one option. Not for others.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "treatment/treatment.h"

namespace soundsill::planning {

/// The rate of liquids along walls, as workings say it.
[[nodiscard]] inline Working gal_per_ten_ft(const Ratio& rate) {
  return Working(rate).in(WorkingWord::gal) / Working(10).in(WorkingWord::ft);
}

struct Planner {
  const Basis& basis;
  const resolved::Option& option;
  Faults& faults;
  Treatment& out;

  const Product* product = nullptr;  ///< of the line that is planned
  Length along_walls{};              ///< feet of soil along walls so far
  Length deepest_along{};            ///< greatest depth reckoned along them

  void line(const resolved::Line& line);
  /// What planning measures of one line on its structure; tells when that is nothing. False when its option leaves it
  /// out.
  bool measure(Task& task);
  void site_of(const resolved::Line& line);

  // soil.cpp
  void soil(Task& task, const SurveyedStructure& s);
  void allowance();
  // holes.cpp
  void voids(Task& task, const SurveyedStructure& s);
  void slab(Task& task, const SurveyedStructure& s);
  // areas.cpp
  void under_slab(Task& task, const SurveyedStructure& s);
  void bath_traps(Task& task, const SurveyedStructure& s);
  void crawl_soil(Task& task, const SurveyedStructure& s);
  void crawl_cover(Task& task, const SurveyedStructure& s);
  void air(Task& task, const SurveyedStructure& s);
  void wood_surface(Task& task, const SurveyedStructure& s);
  void wood_volume(Task& task, const SurveyedStructure& s);
  void soil_removal(Task& task, const SurveyedStructure& s);
  // stations.cpp
  void stations(Task& task, const SurveyedStructure& s);
  // time.cpp
  void times();

  // select.cpp
  /// Marks of one kind that a line takes in.
  [[nodiscard]] static std::vector<const SurveyedMark*> marks_of(const resolved::Line& line, const SurveyedStructure& s,
                                                                 MarkKind kind);
  [[nodiscard]] Length limit(Field<Datum<Length>> Limits::*which) const;
  [[nodiscard]] Ratio rate(Field<Datum<Ratio>> Limits::*which) const;
  /// The spacing a line plans: the form's or the label's, or its own when that is closer; a wider one or none is
  /// reported.
  [[nodiscard]] Length spacing_of(const resolved::Line& line, Field<Datum<Length>> Limits::*by_form,
                                  std::optional<Length> by_label = {});
  template <class T>
  [[nodiscard]] std::string source(std::string_view what, Field<Datum<T>> Limits::*which) const {
    if (!basis.form.limits) return {};
    const auto& datum = (*basis.form.limits).*which;
    if (!datum || !datum->cite || !datum->status) return {};
    return std::string(what) + ": " + *datum->cite + " (" + std::string(yaml::word(*datum->status)) + ")";
  }
  void add(Task& task, const SurveyedStructure& s, Run run);
  /// Work by area or volume that does not say how much there is.
  void no_measure(const resolved::Line& line, const std::string& what, const std::string& fix);
};

/// Rounds to the tenth that is printed and fills gallons from what was computed.
void settle_gallons(Run& run);
/// Stretches that touch round corners of one part, put together: the lengths and whether they close.
struct Chain {
  Length length;
  bool closed = false;
  std::vector<Stretch> stretches;  ///< in order, whichever way each was walked
  Point begin;                     ///< where the first begins
};
/// Lengths are those of the outside line, or of the inside face where a whole wall is drilled from within.
enum class Along { outside, inside };
[[nodiscard]] std::vector<Chain> chains(const SurveyedStructure& s, const std::vector<Stretch>& stretches, Along along);
[[nodiscard]] Length total(const std::vector<Chain>& all);
[[nodiscard]] int holes(const std::vector<Chain>& all, Length spacing);
/// Calls f(wall, length along it) for `count` places spread evenly over a chain; of an open one the first and the last
/// lie at its ends.
template <class F>
void spread(const SurveyedStructure& s, const Chain& chain, int count, F f) {
  const int shares = chain.closed ? count : count - 1;
  Length whole;  // an inside face is shorter than the stretches of its walls
  for (const Stretch& stretch : chain.stretches) whole += stretch.length();
  for (int i = 0; i < count; ++i) {
    Length left{shares > 0 ? whole.sixteenths * i / shares : 0};
    Point at = chain.begin;
    for (const Stretch& stretch : chain.stretches) {
      const Wall& wall = *s.wall(stretch.wall);
      const bool forward = along(wall, stretch.a) == at;
      if (left <= stretch.length() || &stretch == &chain.stretches.back()) {
        const Length on = std::min(left, stretch.length());
        f(wall, forward ? stretch.a + on : stretch.b - on);
        break;
      }
      left -= stretch.length();
      at = along(wall, forward ? stretch.b : stretch.a);
    }
  }
}
// hole_points.cpp: where the holes of a run are drilled. As many points are put as there are holes.
/// Along walls, `out` of their outside line (negative: toward the inside).
void put_along(Run& run, const SurveyedStructure& s, const std::vector<Chain>& chains, Length spacing,
               Length (*out)(const Wall&, Length), Length from_wall);
void put_round(Run& run, Point middle, const Size& size, int count, int pier, const std::string& name);
void put_between(Run& run, Point from, Point to, int count, const std::string& name);
/// Length of a stretch on the inside face: a whole wall is shorter inside than outside, a piece is as long as it was
/// typed.
[[nodiscard]] Length inside_of(const Wall& wall, const Stretch& stretch);
/// Takes `away` out of `from`.
[[nodiscard]] std::vector<Stretch> without(const std::vector<Stretch>& from, const std::vector<Stretch>& away);
/// What `a` and `b` have in common.
[[nodiscard]] std::vector<Stretch> common(const std::vector<Stretch>& a, const std::vector<Stretch>& b);
/// Stretches of all walls: where they are outside walls, or where each counts as a wall of its own.
[[nodiscard]] std::vector<Stretch> all_of(const SurveyedStructure& s, std::vector<Stretch> Wall::*which);

}  // namespace soundsill::planning
