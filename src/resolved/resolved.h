// A case with everything looked up: findings by number, options with their lines, what each line covers, defaults
// applied. The stage between measuring and planning; whoever comes after it reads no block of the case file.
//
// How to read it. A Resolved stands in Basis::resolved. `r.finding(3)` is a finding, or nullptr. `r.options` are the
// choices that the papers offer, each with its lines as its scope cuts them; a case without options has one that takes
// all of the work. A line knows its method, product, structure and findings as pointers (nullptr: there is none, and
// that was reported), and its `cover`: the walls, piers and things of the plan that it takes in. What is near what is
// measured once, here. `typed` leads back to the block of the case file, for rules about what is missing or could not
// be read; only who includes casefile/case.h can look into it. See facts.h for texts, lists and spans.
#pragma once

#include <deque>
#include <optional>
#include <string>
#include <vector>

#include "company/company.h"
#include "jurisdiction/form.h"
#include "resolved/facts.h"
#include "site/survey.h"

namespace soundsill {

struct Case;
struct Finding;
struct OptionFacts;
struct Work;

namespace resolved {

/// A number of the form, and where it comes from.
template <class T>
struct Limit {
  T value{};
  std::string_view cite;
  std::optional<Status> status;
  Span at;
};
/// The form's limits, one member for each row of limits.def; nothing where the form gives no value.
struct Limits {
#define LIMIT(member, type, stricter, need, key, doc) std::optional<Limit<type>> member;
#include "jurisdiction/limits.def"
#undef LIMIT
};
[[nodiscard]] Limits limits_of(const Form& form);
/// A limit's value; zero where the form gives none.
template <class T>
[[nodiscard]] T value_of(const std::optional<Limit<T>>& limit) {
  return limit ? limit->value : T{};
}

struct Reading {
  std::string where;
  std::optional<Percent> percent;
  Span at, percent_at;
};
struct EarlierTreatment {
  bool visible = false;
  bool visible_said = false;  ///< whether it is was typed and read
  std::string papers;
  Span at;
};

struct Finding {
  std::optional<int> no;
  std::optional<FindingKind> kind;
  std::string in;                                ///< as typed
  const SurveyedStructure* structure = nullptr;  ///< nothing when it is not on a plan
  std::optional<Place> typed_place;              ///< as typed, `near N` too
  /// Where it is on the plan of its structure: `near N` looked up, through all steps. Nothing when that place does not
  /// exist or leads round in a circle.
  std::optional<Place> place;
  std::vector<std::vector<Point>> shapes;  ///< of `place`: points, segments or filled outlines
  std::optional<Point> point;              ///< of `place`, where a number can stand
  std::string where;
  std::string organism_name;  ///< as typed
  const Organism* organism = nullptr;
  std::string condition_name;
  const Condition* condition = nullptr;
  std::optional<State> state;
  bool live_seen = false;
  std::vector<std::string> basis, signs;
  std::optional<EarlierTreatment> earlier_treatment;
  std::optional<bool> damage_seen;
  std::optional<Inches> holes;  ///< across the exit holes
  std::vector<Reading> moisture;
  std::string wood, visit;
  std::vector<Photo> photos;
  Span at, no_at, kind_at, in_at, place_at, organism_at, condition_at, state_at, live_seen_at, visit_at;
  const soundsill::Finding* typed = nullptr;

  [[nodiscard]] bool is(FindingKind which) const { return kind && *kind == which; }
  [[nodiscard]] bool is(State which) const { return state && *state == which; }
  [[nodiscard]] bool of_group(OrganismGroup group) const {
    return organism && organism->group && *organism->group == group;
  }
  /// Of an organism that comes through the soil.
  [[nodiscard]] bool in_soil() const { return organism && organism->in_soil.value_or(false); }
  [[nodiscard]] bool on(const SurveyedStructure& s) const { return structure == &s; }
};

/// A partition that a line takes in: the whole of it, or what of it lies near the line's findings.
struct PartitionCover {
  std::size_t partition = 0;  ///< index into the structure's list
  bool whole = false;
  std::vector<PartitionStretch> near;
};

/// What of the plan a line takes in, each kind of thing apart. Numbers and indices are ascending and stand once, but
/// for wood, which stands as named.
struct Cover {
  bool all_walls = false;      ///< it says `all`
  std::vector<Stretch> walls;  ///< along the outside lines, joined
  std::vector<int> piers;
  std::vector<std::size_t> chimneys;
  std::vector<PartitionCover> partitions;
  std::vector<std::size_t> slabs;      ///< for soil, the porches whose outer walls it takes in
  std::vector<std::size_t> pilasters;  ///< by name; those along its walls besides are found with the runs
  std::vector<std::size_t> wood, marks;
  std::vector<std::size_t> areas;
  std::vector<Point> points;
  std::vector<std::size_t> parts;  ///< those it names, or all
  std::vector<Place> named;        ///< every place it names that is neither wall nor pier nor `near`, as typed
  std::vector<const Finding*> near;
  /// All that it names could be read and found. Else it may take in more than stands here, and that was reported.
  bool known = true;
  [[nodiscard]] bool takes_pier(int number) const;
  [[nodiscard]] bool takes_partition(std::size_t index) const;
  /// Takes in what another takes in besides.
  void add(const Cover& other);
};

struct Lumber {
  LumberSize size;
  Length length;
};

/// What a line names, as typed; its Cover says what that comes to.
struct Asked {
  WallSet walls;
  PierSet piers;
  std::vector<int> near;
  std::vector<Place> places;
  std::optional<std::vector<std::string>> parts;                                        ///< nothing: all of them
  bool walls_said = false, piers_said = false, near_said = false, places_said = false;  ///< read or not
  bool unread = false;  ///< one of them could not be read
  Span near_at, parts_at;
  [[nodiscard]] bool any_place() const { return walls_said || piers_said || near_said || places_said; }
};

/// A work line as one option takes it.
struct Line {
  std::string id;
  std::string does;                ///< the method as typed
  const Method* method = nullptr;  ///< nullptr when the trade knows none of that name
  Takes takes = Takes::nothing;
  By who = By::us;
  const Product* product = nullptr;  ///< of our work that uses one: its own, else the option's
  bool own_product = false;          ///< the line names one, whether or not the company has it
  std::string product_id;            ///< as typed
  std::string in;                    ///< as typed
  const SurveyedStructure* structure = nullptr;
  std::vector<int> answer_numbers;
  std::vector<const Finding*> answers;  ///< those that exist
  bool local = false;                   ///< cut to what lies near the findings it answers
  bool cut = false;                     ///< the option's scope made it out of the line as typed
  Asked asked;
  Cover cover;   ///< of our work that is measured on a structure that is drawn
  Length reach;  ///< how far it goes from the findings it is near
  /// Every finding that it is near has its place on the plan.
  bool near_placed = true;
  bool faulted = false;  ///< something that it names is not there, and that was reported
  Sides sides = Sides::both;
  std::optional<Length> depth, spacing;
  std::optional<int> count;
  std::optional<Ratio> sq_ft;
  int coats = 1;
  std::vector<Lumber> lumber;
  bool says_lumber = false;  ///< it was typed, though not all of it may have been read
  std::optional<Surface> surface;
  std::optional<int> core, hold;  ///< of heat: degrees Fahrenheit in the core of the wood, and minutes
  bool half_volume = false;
  std::string firm;
  std::optional<Party> asked_of;
  std::optional<Agreed> agreed;
  std::optional<Date> before;
  std::string because, proof;
  bool preventive = false, lender_asks = false;
  std::optional<Waiver> waiver;
  bool waived = false;  ///< a waiver was typed, whether or not it could be read
  Span at, id_at, does_at, in_at, answers_at, depth_at, spacing_at, count_at, product_at, half_volume_at, surface_at;
  const Work* typed = nullptr;

  [[nodiscard]] bool ours() const { return who == By::us; }
  [[nodiscard]] bool answers_no(int number) const;
  /// Soil, voids or slab of ours: what is done on the walls and piers of the plan.
  [[nodiscard]] bool treats() const;
  /// The same for one kind; backfill is a way to treat soil.
  [[nodiscard]] bool treats(Takes kind) const;
};

/// One choice that the papers offer.
struct Option {
  std::string id, name;
  const Product* product = nullptr;  ///< nullptr when it names none, or none of the company's
  const WarrantyFacts* warranty = nullptr;
  std::string product_id, warranty_id;  ///< as typed
  Scope scope = Scope::full;
  std::optional<Money> quoted;         ///< a price the customer was told before
  std::string because;                 ///< why a partial option is offered
  std::vector<Line> lines;             ///< in the order of the case
  std::vector<std::string> cut_lines;  ///< ids of those that the scope cuts, or leaves out altogether
  bool all_work = false;               ///< made for a case that has work and no options
  bool product_said = false;           ///< `product:` was typed, whether or not it could be read
  Span at, id_at, product_at, warranty_at, scope_at, quoted_at;
  const OptionFacts* typed = nullptr;  ///< nullptr of an option that nobody typed

  [[nodiscard]] bool partial() const { return scope != Scope::full; }
  [[nodiscard]] std::vector<const Line*> answering(int number) const;
};

/// Where the blocks stand that a paper may lack something of; nowhere when they were not typed.
struct Blocks {
  Span whole, people, property, findings, options, accepted;
};

/// Everything that was typed about one house. It points into the survey, the form's trade and the company, and into
/// itself: it is moved, never copied.
struct Resolved {
  CaseFacts facts;
  People people;
  Address address;
  std::vector<Structure> structures;
  std::vector<Visit> visits;
  std::deque<Finding> findings;  ///< in the order of the case
  std::vector<Option> options;
  std::optional<Signature> signature;
  std::optional<OfficialSheet> official_sheet;
  std::vector<Adjustment> adjustments;
  std::optional<Accepted> accepted;
  std::optional<Job> job;
  std::optional<Agreement> agreement;
  std::vector<WaiverSheet> waivers;
  std::vector<Applied> applied;
  std::optional<Invoice> invoice;
  std::vector<Filed> filed;
  std::vector<WarrantyEvent> warranty;
  Limits limits;
  Blocks blocks;
  bool has_options = false;          ///< options were typed
  std::vector<Waiver> line_waivers;  ///< of work lines as typed, those that could not be read empty

  Resolved() = default;
  Resolved(Resolved&&) = default;
  Resolved& operator=(Resolved&&) = default;
  Resolved(const Resolved&) = delete;
  Resolved& operator=(const Resolved&) = delete;

  [[nodiscard]] const Finding* finding(int number) const;
  [[nodiscard]] const Option* option(std::string_view id) const;
  [[nodiscard]] const Structure* structure(std::string_view name) const;
};

/// Looks everything up, and reports what a line names that is not there: walls, piers, chimneys, parts, findings,
/// structures. What cannot be looked up is left out. Other faults of the case are for rules and planning.
[[nodiscard]] Resolved resolve(const Case& c, const Form& form, const Trade& trade, const Company& company,
                               const Survey& survey, Faults& faults);

/// The same option with another product: its lines, and what they are near by that label.
[[nodiscard]] Option with_product(const Resolved& all, const Option& option, const Product& product);

}  // namespace resolved
}  // namespace soundsill
