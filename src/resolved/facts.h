// The facts of a case as plain values: what was typed, with defaults applied once. No Field, no block of the case file.
//
// How to read them: a text or a list that was not typed is empty; a std::optional is there only where absence means
// something; every other value has its default. A Span points to the value as typed, and nowhere when it was not typed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "casefile/place.h"
#include "casefile/terms.h"
#include "source/source.h"
#include "units/units.h"

namespace soundsill {

struct SurveyedStructure;

// The blocks as typed: for rules about what is missing or could not be read, which alone include casefile/case.h.
struct Adjustment;
struct PhotoFile;
struct Structure;
struct WaiverSheet;
struct Applied;
struct WarrantyEvent;

namespace resolved {

/// Why a paper exists in another revision.
struct Replaces {
  std::optional<int> revision;
  std::optional<Date> on;
  std::string because;
};
struct CaseFacts {
  std::string number;
  int revision = 1;
  std::optional<Replaces> replaces;
  std::optional<Date> ordered, due_diligence, closing;
  std::optional<Purpose> purpose;
  Loan loan = Loan::none;
  bool loan_said = false;  ///< it was typed and read, `none` too
  std::optional<SoldAt> sold_at;
  std::optional<bool> senior;  ///< the customer has the age that gives more days to cancel
  std::optional<SoldIn> sold_in;
  std::string control_number;
};

struct Person {
  std::string name, address, phone, email, license;
  Span at, name_at, license_at;
  [[nodiscard]] bool named() const { return !name.empty(); }
};
/// Of whom nothing is said, the name is empty.
struct People {
  Person inspector, buyer, seller, owner, agent, lender, payer, closing_attorney, veteran;
};

struct Address {
  std::string street, city, county, state, zip;
  std::string line;  ///< "118 Heron Lane, Wrenfield, NC 27000"; empty when no address could be read
  Span at;
};

/// An arrow or a circle drawn over a photo.
struct PhotoMark {
  PhotoMarkKind kind = PhotoMarkKind::arrow;
  PhotoPoint from, to;
};
struct Photo {
  std::string file, shows;
  std::optional<PhotoCrop> crop;
  std::vector<PhotoMark> marks;
  Span at, file_at;
  const PhotoFile* typed = nullptr;
};

/// A building that the papers speak of, looked at or not.
struct Structure {
  std::string name, kind;
  bool inspected = true;
  std::string because;  ///< why it was not inspected
  std::vector<Photo> photos;
  const SurveyedStructure* survey = nullptr;  ///< what was measured; nothing when it was not inspected
  /// What its block says, inspected or not; never nullptr. Of one that was not inspected nothing in it is measured.
  const SurveyedStructure* details = nullptr;
  Span at;
  const soundsill::Structure* typed = nullptr;
};

struct Visit {
  std::string id;
  std::optional<Date> date;
  VisitFor made_for = VisitFor::inspection;
  std::optional<TimeOfDay> from, to;
  std::string weather, by;
  std::vector<std::string> tools;
  Span at;
};

struct Signature {
  std::string name;
  std::optional<Date> on;
  std::string interest;  ///< in the sale of the house: none, or which
  Span at, on_at;
};
struct OfficialSheet {
  std::optional<Date> signed_on;
  std::string by, name;
  std::optional<Date> edition;
  std::string address;  ///< as typed on it
  Span at;
};

/// What changes a price for a reason that the measures do not show. It has a kind, and a percentage or an amount.
struct Adjustment {
  AdjustmentKind kind = AdjustmentKind::discount;
  std::optional<Percent> percent;  ///< of the lines, or
  Money amount;
  std::string because;
  bool every_option = true;
  std::vector<std::string> options;  ///< otherwise these
  Span at;
  const soundsill::Adjustment* typed = nullptr;
};

/// Somebody's word, given on a day.
struct Consent {
  std::string by;
  std::optional<Date> on;
  Span at;
};
struct Waiver {
  std::string by, because;
  std::optional<Date> on;
  Span at;
};
struct Agreed {
  std::optional<Party> by;
  std::optional<Date> on;
};

struct Accepted {
  std::string option, by;
  std::optional<Date> on;
  std::optional<Money> total;  ///< the price that was signed
  Span at, option_at;
};
struct Locate {
  std::string ticket;
  std::optional<Date> called, from, until;
  Span at;
};
struct Job {
  std::optional<Date> on;
  std::vector<std::string> crew;
  std::optional<Locate> locate;
  std::vector<std::string> notes;
  Span at, on_at;
};
struct Agreement {
  std::optional<Date> on;
  std::string by;
  std::vector<Attached> attached;
  std::optional<int> free_days;
  std::optional<Date> fungus_notice;
  Span at, on_at;
};
/// The state's own waiver of one deviation.
struct WaiverSheet {
  std::string option;                             ///< empty: the accepted one
  std::optional<std::vector<std::string>> lines;  ///< nothing: all of them
  std::string leaves_out, because, by;
  std::optional<Date> on;
  bool owner_signs = false;  ///< that block was typed, whether or not it could be read
  std::optional<Consent> owner_accepts, agreed_after;
  Span at;
  const soundsill::WaiverSheet* typed = nullptr;
};

/// What one run took on one day.
struct AppliedRun {
  std::optional<int> run;
  std::optional<Ratio> gal;
  int holes = 0, plugged = 0;
  std::optional<Waiver> untreated;
  Span at, run_at, gal_at, holes_at, plugged_at;
};
struct AppliedProduct {
  std::string product;
  std::optional<Percent> strength;
  std::optional<Ratio> fl_oz;
  Span at, product_at, strength_at;
};
/// A day of treatment as it was.
struct Applied {
  std::optional<Date> on;
  std::optional<TimeOfDay> from, to;
  bool retreatment = false;
  std::string because;
  std::vector<std::string> crew;
  std::string weather;
  std::vector<AppliedProduct> products;
  std::vector<AppliedRun> runs;
  std::vector<std::string> done;  ///< lines of counted work and jobs
  std::vector<Photo> photos;
  std::optional<Date> goes_on;
  Span at, on_at, done_at;
  const soundsill::Applied* typed = nullptr;
};

struct Payment {
  std::optional<Date> on;
  Money amount;
  std::string by, how;
  Span at;
};
struct Fee {
  std::string what;
  Money amount;
  Span at;
};
struct Invoice {
  std::string number;
  std::optional<Date> on;
  std::vector<Fee> fees;
  std::vector<Payment> paid;
  bool veteran_pays = false, notice_requires = false;
  Span at, on_at, veteran_pays_at;
};

struct Filed {
  std::string paper;
  std::optional<Date> on;
  Span at, paper_at, on_at;
};

struct WarrantyEvent {
  std::optional<WarrantyDid> did;
  std::optional<Date> on;
  std::string visit;  ///< on which it was seen
  std::optional<Money> paid;
  std::string to, by, because;
  std::optional<Date> settled;
  Span at, on_at;
  const soundsill::WarrantyEvent* typed = nullptr;
};

}  // namespace resolved
}  // namespace soundsill
