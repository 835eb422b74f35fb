// The trade's facts of one inspection: what was seen, asked and agreed. Nothing in here is worked out.
#pragma once

#include <deque>
#include <string>
#include <vector>

#include "casefile/place.h"
#include "casefile/terms.h"
#include "yaml/keys.h"

namespace soundsill {

using yaml::Code;
using yaml::Field;
using yaml::Placed;
template <class T>
using ListField = yaml::Field<std::vector<T>>;

/// Why a paper exists in another revision.
struct Replaces : Placed {
  Field<int> revision;
  Field<Date> on;
  Field<std::string> because;
  static const yaml::Block& block();
};

struct CaseFacts : Placed {
  Field<std::string> number;
  Field<int> revision;
  Field<Replaces> replaces;
  Field<Date> ordered, due_diligence, closing;
  Field<Purpose> purpose;
  Field<Loan> loan;
  Field<SoldAt> sold_at;
  Field<SoldIn> sold_in;
  Field<bool> senior;
  Field<std::string> control_number;  ///< given by the state to this report
  static const yaml::Block& block();
};

struct Person : Placed {
  Field<std::string> name, address, phone, email;
  Field<Code> license;
  static const yaml::Block& block();
};
struct People : Placed {
  Field<Person> inspector, buyer, seller, owner, agent, lender, payer, closing_attorney, veteran;
  static const yaml::Block& block();
};

struct Address : Placed {
  Field<std::string> street, city, county, state;
  Field<Code> zip;
  static const yaml::Block& block();
};

struct Part : Placed {
  Field<std::string> name;
  Field<Foundation> foundation;
  Field<Point> start;
  ListField<Step> outline;
  Field<Length> crawl_height;
  Field<Length> joists_above, girders_above, wood_above;  ///< least height of wood above soil; the last, outside
  Field<Length> wall_height, roof_height;  ///< of the air that a fumigant or heat has to fill; a roof counts half
  static const yaml::Block& block();
};

struct Footing : Placed {
  Field<Length> outside, inside;        ///< from the soil's surface down to the top of the footing
  Field<Length> outside_to, inside_to;  ///< at the end of the wall, where the soil or the footing slopes
  Field<KnownBy> known_by;
  static const yaml::Block& block();
};
struct WallFacts : Placed {
  Field<WallSet> walls;
  Field<WallKind> kind;
  Field<KnownBy> kind_known_by;
  Field<Length> thick;
  Field<Footing> footing;
  Field<Adjoins> adjoins;
  static const yaml::Block& block();
};

/// Piers of one kind, in a grid (`from`, `every`, `count`) or each at its own point (`at`), numbered as listed.
struct PierGroup : Placed {
  Field<Point> from;
  Field<Size> every;
  Field<Count> count;
  ListField<Point> at_points;
  Field<Size> size;
  Field<PierKind> kind;
  Field<Length> footing;  ///< from the soil's surface down to the top of the pier's footing
  Field<KnownBy> known_by;
  Field<Ratio> gal_each;
  static const yaml::Block& block();
};
struct Chimney : Placed {
  Field<std::string> name;
  Field<Point> at_point;  ///< its middle
  Field<Size> size;
  Field<PierKind> kind;
  Field<Length> footing;
  Field<KnownBy> known_by;
  static const yaml::Block& block();
};
/// A wall inside a part, with soil on both sides; its ends may reach into the outside walls.
struct Partition : Placed {
  Field<std::string> name;
  Field<Point> from, to;  ///< along its middle
  Field<WallKind> kind;
  Field<Length> thick;
  Field<Length> footing;
  Field<KnownBy> known_by;
  static const yaml::Block& block();
};
/// Masonry that stands out from a wall and carries it: a pilaster, or a step buttress.
struct Pilaster : Placed {
  Field<std::string> name;
  Field<PilasterKind> kind;
  ListField<Place> places;  ///< their middles along walls
  Field<Sides> side;        ///< outside or inside
  Field<Length> wide, deep;
  Field<Length> footing;
  Field<KnownBy> known_by;
  static const yaml::Block& block();
};
/// A slab or porch that covers the soil along a wall.
struct Slab : Placed {
  Field<std::string> name;
  Field<Fill> fill;
  Field<Place> along;
  Field<Length> deep;     ///< away from the wall
  Field<Length> footing;  ///< of its own outer walls, from the soil down
  Field<KnownBy> known_by;
  static const yaml::Block& block();
};
/// Wood that stands in soil: posts, stair stringers.
struct WoodContact : Placed {
  Field<std::string> name;
  Field<int> posts;
  ListField<Point> at_points;
  Field<Ratio> gal_each;
  static const yaml::Block& block();
};
struct Mark : Placed {
  Field<MarkKind> kind;
  Field<std::string> name;
  Field<Point> at_point;
  Field<Point> to;  ///< where a line ends that begins at `at`
  Field<Size> size;
  Field<Place> along;
  static const yaml::Block& block();
};
struct Dangers : Placed {
  Field<Answer> well, cistern, ducts_in_slab, plenum, radon_pipe, drain, lines, post_tension, heated_slab, pond,
      edible_beds, blooming_plants, sensitive_occupants;
  static const yaml::Block& block();
  /// Every danger with its key, in the order of the table.
  [[nodiscard]] std::vector<std::pair<std::string_view, const Field<Answer>*>> all() const;
};
/// An arrow or a circle drawn over a photo.
struct PhotoMark : Placed {
  Field<PhotoMarkKind> kind;
  Field<PhotoPoint> from;  ///< where the arrow begins; the middle of the circle
  Field<PhotoPoint> to;    ///< what the arrow points at; a point on the circle
  static const yaml::Block& block();
};
struct PhotoFile : Placed {
  Field<std::string> file, shows;
  Field<PhotoCrop> crop;
  ListField<PhotoMark> marks;
  static const yaml::Block& block();
};
struct Area : Placed {
  Field<std::string> name;
  Field<Seen> seen;
  ListField<Point> region;  ///< corners on the plan of what was not seen
  Field<std::string> because;
  Field<std::string> advice;  ///< what is recommended about what was not seen
  static const yaml::Block& block();
};
/// Totals taped at the house, which may contradict what was drawn.
struct Measured : Placed {
  Field<Length> outside;
  Field<InsideMeasure> inside;
  static const yaml::Block& block();
};
struct Structure : Placed {
  Field<std::string> name, kind;
  Field<bool> inspected;
  Field<std::string> because;  ///< why it was not inspected
  Field<Soil> soil;
  Field<Ground> ground;
  ListField<Part> parts;
  ListField<WallFacts> walls;
  ListField<PierGroup> piers;
  ListField<Chimney> chimneys;
  ListField<Partition> partitions;
  ListField<Pilaster> pilasters;
  ListField<Slab> slabs;
  ListField<WoodContact> wood;
  ListField<Mark> marks;
  Field<Dangers> dangers;
  ListField<Area> areas;
  Field<Measured> measured;
  ListField<PhotoFile> photos;
  static const yaml::Block& block();
  [[nodiscard]] bool looked_at() const { return inspected.value_or(true); }
};
struct Property : Placed {
  Field<Address> address;
  ListField<Structure> structures;
  static const yaml::Block& block();
};

struct Visit : Placed {
  Field<std::string> id;
  Field<Date> date;
  Field<VisitFor> made_for;
  Field<TimeOfDay> from, to;
  Field<std::string> weather, by;
  ListField<std::string> tools;
  static const yaml::Block& block();
};

struct EarlierTreatment : Placed {
  Field<bool> visible;
  Field<std::string> papers;
  static const yaml::Block& block();
};
struct Reading : Placed {
  Field<std::string> where;
  Field<Percent> percent;
  static const yaml::Block& block();
};
struct Finding : Placed {
  Field<int> no;
  Field<FindingKind> kind;
  Field<std::string> in;
  Field<Place> place;
  Field<std::string> where;
  Field<std::string> organism;
  Field<std::string> condition;
  Field<State> state;
  Field<bool> live_seen;
  ListField<std::string> basis, signs;
  Field<EarlierTreatment> earlier_treatment;
  Field<bool> damage_seen;
  Field<Inches> holes;  ///< across the exit holes
  ListField<Reading> moisture;
  Field<std::string> wood, visit;
  ListField<PhotoFile> photos;
  static const yaml::Block& block();
};

struct Agreed : Placed {
  Field<Party> by;
  Field<Date> on;
  static const yaml::Block& block();
};
struct Waiver : Placed {
  Field<std::string> by, because;
  Field<Date> on;
  static const yaml::Block& block();
};
/// Wood of one nominal size, in inches, and how long it is altogether.
struct Lumber : Placed {
  Field<LumberSize> size;
  Field<Length> length;
  static const yaml::Block& block();
};
struct Work : Placed {
  Field<std::string> id;
  ListField<int> answers;
  Field<std::string> does;
  Field<std::string> in;
  Field<WallSet> walls;
  Field<Sides> sides;
  Field<PierSet> piers;
  ListField<int> near;
  ListField<Place> places;
  Field<Length> depth;
  Field<int> count;
  Field<Ratio> sq_ft;
  Field<int> coats;
  ListField<Lumber> lumber;
  ListField<std::string> parts;
  Field<Length> spacing;
  Field<Surface> surface;
  Field<int> core, hold;  ///< of heat: degrees Fahrenheit in the core of the wood, and minutes
  Field<std::string> product;
  Field<bool> half_volume;
  Field<By> by;
  Field<std::string> firm;
  Field<Party> asked_of;
  Field<Agreed> agreed;
  Field<Date> before;
  Field<std::string> because;
  Field<std::string> proof;
  Field<bool> preventive, lender_asks;
  Field<Waiver> waiver;
  bool local = false;  ///< cut by a scope: of what it names, only what lies near the findings it answers
  static const yaml::Block& block();
  [[nodiscard]] By who() const { return by.value_or(By::us); }
};

struct OptionFacts : Placed {
  Field<std::string> id, name;
  ListField<std::string> work;
  Field<std::string> product, warranty;
  Field<Scope> scope;
  Field<Money> quoted;         ///< a price the customer was told before
  Field<std::string> because;  ///< why a partial option is offered
  static const yaml::Block& block();
};
struct Signed : Placed {
  Field<std::string> name;
  Field<Date> on;
  Field<std::string> interest;  ///< in the sale of the house: none, or which
  static const yaml::Block& block();
};
struct OfficialSheet : Placed {
  Field<Date> signed_on;
  Field<std::string> by;
  Field<std::string> name;  ///< which sheet, when not the state's own
  Field<Date> edition;
  Field<std::string> address;  ///< as typed on it
  static const yaml::Block& block();
};

/// What changes a price for a reason that the measures do not show.
struct Adjustment : Placed {
  Field<AdjustmentKind> kind;
  Field<Percent> percent;  ///< of the lines, or
  Field<Money> amount;
  Field<std::string> because;
  ListField<std::string> options;  ///< all when not said
  static const yaml::Block& block();
};
/// Somebody's word, given on a day.
struct Consent : Placed {
  Field<std::string> by;
  Field<Date> on;
  static const yaml::Block& block();
};
/// The option that whoever pays has taken.
struct Accepted : Placed {
  Field<std::string> option, by;
  Field<Date> on;
  Field<Money> total;  ///< the price that was signed; it has to be the price worked out
  static const yaml::Block& block();
};
/// The ticket under which the owners of lines mark them in the soil.
struct Locate : Placed {
  Field<Code> ticket;
  Field<Date> called, from, until;
  static const yaml::Block& block();
};
/// The work as it is planned for a day.
struct Job : Placed {
  Field<Date> on;
  ListField<std::string> crew;
  Field<Locate> locate;
  ListField<std::string> notes;
  static const yaml::Block& block();
};
/// The service agreement, once it is signed.
struct Agreement : Placed {
  Field<Date> on;
  Field<std::string> by;  ///< who signed for the company: the licensee or an agent
  ListField<Attached> attached;
  Field<int> free_days;  ///< for which treatment is promised free of charge
  Field<Date> fungus_notice;
  static const yaml::Block& block();
};
/// The state's own waiver of one deviation, as it was filled in and signed.
struct WaiverSheet : Placed {
  Field<std::string> option;
  ListField<std::string> lines;
  Field<std::string> leaves_out, because, by;
  Field<Date> on;
  Field<Consent> owner_accepts, agreed_after;
  static const yaml::Block& block();
};
/// What one run took on one day. A top-up is the same run again.
struct AppliedRun : Placed {
  Field<int> run;
  Field<Ratio> gal;
  Field<int> holes, plugged;
  Field<Waiver> untreated;
  static const yaml::Block& block();
};
struct AppliedProduct : Placed {
  Field<std::string> product;
  Field<Percent> strength;
  Field<Ratio> fl_oz;
  static const yaml::Block& block();
};
/// A day of treatment as it was.
struct Applied : Placed {
  Field<Date> on;
  Field<TimeOfDay> from, to;
  Field<bool> retreatment;
  Field<std::string> because;
  ListField<std::string> crew;
  Field<std::string> weather;
  ListField<AppliedProduct> products;
  ListField<AppliedRun> runs;
  ListField<std::string> done;  ///< lines of counted work and jobs
  ListField<PhotoFile> photos;
  Field<Date> goes_on;
  static const yaml::Block& block();
};
/// A paper that was filed with an office.
struct Filed : Placed {
  Field<std::string> paper;
  Field<Date> on;
  static const yaml::Block& block();
};
struct Payment : Placed {
  Field<Date> on;
  Field<Money> amount;
  Field<std::string> by, how;
  static const yaml::Block& block();
};
struct Fee : Placed {
  Field<std::string> what;
  Field<Money> amount;
  static const yaml::Block& block();
};
struct Invoice : Placed {
  Field<Code> number;
  Field<Date> on;
  ListField<Fee> fees;
  ListField<Payment> paid;
  Field<bool> veteran_pays, notice_requires;
  static const yaml::Block& block();
};
struct WarrantyEvent : Placed {
  Field<WarrantyDid> did;
  Field<Date> on;
  Field<std::string> visit;  ///< on which it was seen
  Field<Money> paid;
  Field<std::string> to, by, because;
  Field<Date> settled;
  static const yaml::Block& block();
};

/// A work line as an option's scope cuts it; worked out once after reading, never typed.
struct ScopedLine {
  std::string option, line;
  std::optional<Work> work;  ///< nothing when the scope leaves the line out
};

struct Case : Placed {
  Field<int> format;
  Field<CaseFacts> facts;
  Field<std::string> form, edition;  ///< the edition of the form that the case was made under
  Field<People> people;
  Field<Property> property;
  ListField<Visit> visits;
  ListField<Finding> findings;
  ListField<Work> work;
  ListField<OptionFacts> options;
  Field<Signed> signature;
  Field<OfficialSheet> official_sheet;
  ListField<Adjustment> adjustments;
  Field<Accepted> accepted;
  Field<Job> job;
  Field<Agreement> agreement;
  ListField<WaiverSheet> waivers;
  ListField<Applied> applied;
  Field<Invoice> invoice;
  ListField<Filed> filed;
  ListField<WarrantyEvent> warranty;
  static const yaml::Block& block();

  std::deque<ScopedLine> scoped;  ///< filled by cut_to_scope

  /// "118 Heron Lane, Wrenfield, NC 27000"; empty when no address could be read.
  [[nodiscard]] std::string address_line() const;
  // Lists as lists: empty when absent or unreadable.
  [[nodiscard]] const std::vector<Structure>& structures() const;
};

/// Every photo that a case names, with what it belongs to in words.
struct PhotoUse {
  const PhotoFile* photo = nullptr;
  const Finding* finding = nullptr;      ///< or
  const Structure* structure = nullptr;  ///< of a structure as a whole, or
  const Applied* applied = nullptr;      ///< of a day of treatment
};
[[nodiscard]] std::vector<PhotoUse> photos_of(const Case& c);

/// Reads a case. Gives nothing only when the tree could not be read at all; otherwise what could be read, with faults.
[[nodiscard]] std::optional<Case> read_case(const Source& source, Faults& faults);

}  // namespace soundsill
