// What becomes of an option once it is accepted: what was applied, how long it is warranted, what comes due, what is
// kept. Dates are days without time or zone; nothing here asks the clock.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "estimate/estimate.h"

namespace soundsill {

/// The option that papers after the estimate are made for: the one named, else the accepted one, else the only one
/// there is. nullptr when it cannot be told.
[[nodiscard]] const Treatment* chosen_treatment(const resolved::Resolved& house, const std::vector<Treatment>& all,
                                                std::string_view named = {});

/// The waiver sheets of an option, as listed; one that names no option is of the accepted one.
[[nodiscard]] std::vector<const resolved::WaiverSheet*> sheets_of(const resolved::Resolved& house,
                                                                  std::string_view option);
/// The sheet that waives what is left out of a line: of those that name it, or name no lines at all, the first that the
/// owner has signed, else the first; nullptr when there is none.
[[nodiscard]] const resolved::WaiverSheet* sheet_of(const resolved::Resolved& house, std::string_view option,
                                                    std::string_view line);

/// One run of an option with what the record says of it, top-ups summed.
struct RunDone {
  const Run* run = nullptr;
  Ratio gallons;
  Ratio least, most;  ///< gallons: what rate and required depth ask, and what label or form allows at most
  int holes = 0, plugged = 0;
  bool done = false;                            ///< an entry says so
  bool measured = false;                        ///< an entry gives its gallons
  const resolved::AppliedRun* entry = nullptr;  ///< the last that speaks of it
  const resolved::Waiver* untreated = nullptr;  ///< it was left out under this waiver
  std::vector<Date> days;
};
/// The most gallons that a run may take when so much over its plan is allowed, to the tenth that a meter shows.
[[nodiscard]] Ratio most_gallons(const Run& run, const Percent& over);
/// Every run of the option over all days of treatment. Retreatments are no part of it.
[[nodiscard]] std::vector<RunDone> runs_done(const Basis& basis, const Treatment& treatment);
/// What one retreatment took, with the runs that it names alone.
struct Retreatment {
  const resolved::Applied* day = nullptr;
  std::vector<RunDone> runs;
};
[[nodiscard]] std::vector<Retreatment> retreatments(const Basis& basis, const Treatment& treatment);

/// What the record says of one line of the option.
struct LineDone {
  bool any = false;                            ///< something of it was done
  std::vector<const Run*> untreated, missing;  ///< runs left out under a waiver, and runs that nobody wrote down
};
[[nodiscard]] LineDone line_done(const resolved::Resolved& house, const std::vector<RunDone>& runs,
                                 std::string_view line);
/// Whether a day of treatment lists a line that has no runs.
[[nodiscard]] bool line_listed(const resolved::Resolved& house, std::string_view line);

/// The first and the last day of treatment. Retreatments do not count; there is no last day while the work goes on.
[[nodiscard]] const resolved::Applied* first_day(const resolved::Resolved& house);
[[nodiscard]] std::optional<Date> treated_on(const resolved::Resolved& house);
[[nodiscard]] std::optional<Date> finished_on(const resolved::Resolved& house);

/// How long a warranty runs. Ends of periods are counted from the first day of treatment each time, so that a month's
/// end does not creep.
struct Term {
  const WarrantyFacts* facts = nullptr;
  Date from, until;  ///< until the end of its last period, or the day on which a renewal was missed
  int renewals = 0;
  const resolved::WarrantyEvent* missed = nullptr;  ///< a renewal that was missed ended it
  std::string holder;                               ///< after the last transfer
};
/// Nothing without a warranty, before the treatment, or when its months are beyond belief.
[[nodiscard]] std::optional<Term> term_of(const Basis& basis, const Treatment& treatment);

/// Something that the office has to do by a day.
struct Due {
  enum class What { renewal, reinspection, notice, filing } what = What::renewal;
  Date on;
  std::optional<Money> fee;    ///< of a renewal
  std::string holder;          ///< on that day
  std::optional<Date> looked;  ///< the last day on which somebody looked at the house
  std::string paper = {};      ///< of a filing: what is filed; its holder is whose office it goes to
};
/// What comes due from one day to another, both included, the earliest first. A look at the house counts for the end
/// of a period that it lies nearest to, so that neither an early look is asked for twice nor a late one skips a period.
[[nodiscard]] std::vector<Due> due_between(const Basis& basis, const Treatment& treatment, Date from, Date to);
/// A paper of the case that the form wants filed.
struct FilingDue {
  const Filing* rule = nullptr;
  Date from, by;
  const resolved::Filed* done = nullptr;  ///< nullptr: the case does not say that it was filed
};
/// Those whose days have begun: from the last inspection, and from the end of the treatment.
[[nodiscard]] std::vector<FilingDue> filings_of(const Form& form, const resolved::Resolved& house);
/// Those that are open, and due from one day to another.
[[nodiscard]] std::vector<Due> filings_between(const Basis& basis, Date from, Date to);
/// The last day on which somebody looked: visits and inspections under the warranty.
[[nodiscard]] std::optional<Date> last_look(const resolved::Resolved& house);

/// Days for which treatment is promised free of charge: as the agreement says, else as the form does.
[[nodiscard]] std::optional<int> free_days(const Form& form, const resolved::Resolved& house);
/// The last of these days, counted as the form says: from the last visit before the paper, or from its issue. Nothing
/// where the form does not say from when they count.
[[nodiscard]] std::optional<Date> free_until(const Form& form, const resolved::Resolved& house);
/// Whether a veteran may pay an inspection on that day: only when the notice of value asks for it, and not before the
/// form's day. True where the form says nothing.
[[nodiscard]] bool veteran_may_pay(const Form& form, Date on, bool notice_requires);
/// The last day on which active beetles oblige the company, and the last day to come after a notice.
[[nodiscard]] std::optional<Date> beetles_until(const Form& form, Date treated);
[[nodiscard]] std::optional<Date> beetles_due(const Form& form, Date noticed);

/// How long one paper of a case is kept.
struct Keeping {
  const Keep* rule = nullptr;
  std::optional<Date> until;       ///< nothing while the day it counts from has not come
  bool passed = false;             ///< the minimum has passed by the day asked
  std::vector<std::string> holds;  ///< why it is kept all the same: "the warranty runs until 2027-03-10"
};
/// Every paper of the case that the form names, and whether its minimum has passed on `today`.
[[nodiscard]] std::vector<Keeping> keeping(const Basis& basis, const std::vector<Treatment>& treatments, Date today);

}  // namespace soundsill
