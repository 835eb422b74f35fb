// Business days as the federal rule on sales at home counts them: Saturdays are, Sundays and federal holidays are not.
#pragma once

#include "jurisdiction/datum.h"

namespace soundsill {

/// A federal holiday: a day of a month, or a weekday of one, counted from its beginning or its end.
enum class Weekday { sunday, monday, tuesday, wednesday, thursday, friday, saturday };
enum class WeekOf { first, second, third, fourth, last };
struct Holiday : Placed {
  Field<std::string> name;
  Field<int> month, day;
  Field<Weekday> weekday;
  Field<WeekOf> week;
  Field<int> since;  ///< the first year in which it is one
  Field<std::string> cite;
  Field<Status> status;
  static const yaml::Block& block();
};

/// Whether it is neither a Sunday nor a federal holiday. A holiday that falls on a Saturday or Sunday counts on its own
/// day and on the weekday on which it is kept (5 U.S.C. 6103(b)): the buyer's time may end later by that, never
/// earlier.
[[nodiscard]] bool is_business_day(const std::vector<Holiday>& holidays, const Date& day);
/// The business day that is the `count`th after a day.
[[nodiscard]] Date business_days_after(const std::vector<Holiday>& holidays, const Date& day, int count);

}  // namespace soundsill

namespace soundsill::yaml {
template <>
struct Words<Weekday> {
  static constexpr auto words =
      std::to_array<std::string_view>({"Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"});
};
template <>
struct Words<WeekOf> {
  static constexpr auto words = std::to_array<std::string_view>({"first", "second", "third", "fourth", "last"});
};
}  // namespace soundsill::yaml
