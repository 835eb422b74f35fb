#include "estimate/otherwise.h"

#include <algorithm>
#include <functional>

namespace soundsill {
namespace {

template <class T, class F>
void edit(Field<T>& field, F change) {
  T value = *field;
  change(value);
  field.set(std::move(value));
}

bool assumed(const Field<KnownBy>& known_by) { return known_by && *known_by == KnownBy::assumed; }

using Change = std::function<void(Structure&)>;

struct Trial {
  Otherwise what;
  std::size_t structure = 0;
  Change change;
};

/// Moves a depth; it stays below the soil.
void move(Field<Length>& depth, Length step) {
  if (depth) depth.set(std::max(*depth + step, Length::inches(1)));
}

struct Trials {
  const Basis& basis;
  std::vector<Trial> all{};
  std::size_t at = 0;
  const Structure* s = nullptr;

  void put(Otherwise what, Change change) {
    what.structure = s->name.value_or("");
    all.push_back({std::move(what), at, std::move(change)});
  }

  [[nodiscard]] Length step() const {
    const auto& limits = basis.form.limits;
    return limits && limits->assumed_step && limits->assumed_step->value ? *limits->assumed_step->value : Length{};
  }

  /// Both ways, for a depth of item `i` of one of the structure's lists.
  template <class T, class Move>
  void depth(Otherwise what, ListField<T> Structure::*list, std::size_t i, Move move_it) {
    for (const Length by : {step(), -step()}) {
      what.step = by;
      put(what, [=](Structure& other) { edit(other.*list, [&](std::vector<T>& items) { move_it(items[i], by); }); });
    }
  }

  void walls() {
    const auto& blocks = items(s->walls);
    for (std::size_t i = 0; i < blocks.size(); ++i) {
      const WallFacts& block = blocks[i];
      Otherwise what;
      if (block.walls)
        for (const WallStretch& w : block.walls->some) what.numbers.push_back(w.wall);
      if (block.footing && assumed(block.footing->known_by))
        depth(what, &Structure::walls, i, [](WallFacts& w, Length by) {
          edit(w.footing, [&](Footing& f) {
            for (Field<Length>* d : {&f.outside, &f.inside, &f.outside_to, &f.inside_to}) move(*d, by);
          });
        });
      if (block.kind && *block.kind == WallKind::hollow_block && assumed(block.kind_known_by)) {
        what.what = Otherwise::What::void_solid;
        put(what, [i](Structure& other) {
          edit(other.walls, [&](std::vector<WallFacts>& w) { w[i].kind.set(WallKind::poured); });
        });
      }
    }
  }

  template <class T>
  void things(Otherwise::What kind, ListField<T> Structure::*list) {
    const auto& all_of = items(s->*list);
    int number = 1;
    for (std::size_t i = 0; i < all_of.size(); ++i) {
      Otherwise what;
      what.what = kind;
      if constexpr (requires { all_of[i].name; })
        what.name = all_of[i].name.value_or("");
      else
        for (const int last = number + count(all_of[i]); number < last; ++number) what.numbers.push_back(number);
      if (all_of[i].footing && assumed(all_of[i].known_by))
        depth(what, list, i, [](T& one, Length by) { move(one.footing, by); });
    }
  }

  static int count(const PierGroup& g) {
    if (g.at_points) return static_cast<int>(g.at_points->size());
    return g.count ? g.count->across * g.count->down : 0;
  }

  void slabs() {
    const auto& all_of = items(s->slabs);
    for (std::size_t i = 0; i < all_of.size(); ++i) {
      if (!all_of[i].fill || *all_of[i].fill != Fill::not_known) continue;
      Otherwise what;
      what.what = Otherwise::What::slab_empty;
      what.name = all_of[i].name.value_or("");
      put(what, [i](Structure& other) {
        edit(other.slabs, [&](std::vector<Slab>& slabs) { slabs[i].fill.set(Fill::none); });
      });
    }
  }

  void collect() {
    const auto& structures = basis.c.structures();
    for (at = 0; at < structures.size(); ++at) {
      s = &structures[at];
      if (!s->looked_at()) continue;
      walls();
      things(Otherwise::What::piers, &Structure::piers);
      things(Otherwise::What::chimney, &Structure::chimneys);
      things(Otherwise::What::partition, &Structure::partitions);
      things(Otherwise::What::pilaster, &Structure::pilasters);
      things(Otherwise::What::porch, &Structure::slabs);
      slabs();
    }
  }
};

}  // namespace

std::vector<Otherwise> otherwise(const Basis& basis, const Treatment& treatment, const Estimate& estimate) {
  std::vector<Otherwise> out;
  if (treatment.runs.empty()) return out;
  Trials trials{basis};
  trials.collect();
  for (Trial& trial : trials.all) {
    Case other = basis.c;
    edit(other.property, [&](Property& property) {
      edit(property.structures, [&](std::vector<Structure>& all) { trial.change(all[trial.structure]); });
    });
    Faults ignored;  // what is wrong with a trial is not wrong with the case
    const Survey survey = measure(other, ignored);
    const Basis again{other, basis.form, basis.trade, basis.company, survey};
    for (const Treatment& t : plan_all(again, ignored)) {
      if (t.id != treatment.id) continue;
      trial.what.gallons = t.gallons - treatment.gallons;
      trial.what.holes = t.holes - treatment.holes;
      trial.what.amount = price(again, t, ignored).total - estimate.total;
      out.push_back(trial.what);
      break;
    }
  }
  return out;
}

}  // namespace soundsill
