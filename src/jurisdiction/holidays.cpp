#include "jurisdiction/holidays.h"

#include <algorithm>
#include <chrono>

namespace soundsill {

namespace ch = std::chrono;
using yaml::Block;
using yaml::key;
using yaml::Key;
constexpr auto always = yaml::Need::always;
constexpr auto never = yaml::Need::never;

const Block& Holiday::block() {
  static constexpr Key rows[] = {
      key<&Holiday::name>("name", always, "the holiday"),
      key<&Holiday::month>("month", always, "1 to 12"),
      key<&Holiday::day>("day", never, "of the month, when it is the same every year"),
      key<&Holiday::weekday>("weekday", never, "when it is a weekday of that month"),
      key<&Holiday::week>("week", never, "which of them: first, second, third, fourth or last"),
      key<&Holiday::since>("since", never, "the first year in which it is one"),
      key<&Holiday::cite>("cite", always, "where it is written"),
      key<&Holiday::status>("status", always, "how far it was verified"),
  };
  static constexpr Block made{"a holiday", rows};
  return made;
}

namespace {

std::optional<ch::sys_days> in_year(const Holiday& holiday, ch::year year) {
  if (!holiday.month || (holiday.since && static_cast<int>(year) < *holiday.since)) return std::nullopt;
  const ch::month month(static_cast<unsigned>(*holiday.month));
  if (holiday.day) {
    const auto day = year / month / ch::day(static_cast<unsigned>(*holiday.day));
    return day.ok() ? std::optional<ch::sys_days>(day) : std::nullopt;
  }
  if (!holiday.weekday || !holiday.week || !month.ok()) return std::nullopt;
  const ch::weekday weekday(static_cast<unsigned>(*holiday.weekday));
  if (*holiday.week == WeekOf::last) return ch::sys_days(year / month / weekday[ch::last]);
  return ch::sys_days(year / month / weekday[static_cast<unsigned>(*holiday.week) + 1]);
}

/// The weekday on which a holiday is kept that falls on a weekend.
ch::sys_days kept_on(ch::sys_days day) {
  const ch::weekday weekday(day);
  if (weekday == ch::Saturday) return day - ch::days(1);
  return weekday == ch::Sunday ? day + ch::days(1) : day;
}

}  // namespace

bool is_business_day(const std::vector<Holiday>& holidays, const Date& date) {
  const ch::sys_days day(date.day);
  if (ch::weekday(day) == ch::Sunday) return false;
  const auto falls_here = [&](const Holiday& holiday) {
    // New Year's Day of the next year may be kept on the last day of this one.
    for (const ch::year year : {date.day.year(), date.day.year() + ch::years(1)})
      if (const auto own = in_year(holiday, year); own && (*own == day || kept_on(*own) == day)) return true;
    return false;
  };
  return std::none_of(holidays.begin(), holidays.end(), falls_here);
}

Date business_days_after(const std::vector<Holiday>& holidays, const Date& date, int count) {
  Date at = date;
  while (count > 0) {
    at = plus_days(at, 1);
    if (is_business_day(holidays, at)) --count;
  }
  return at;
}

}  // namespace soundsill
