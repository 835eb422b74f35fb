// What comes due, for people, spreadsheets, programs and calendars.
#pragma once

#include <string>
#include <vector>

#include "service/service.h"

namespace soundsill::listing {

/// One thing that comes due, of one case.
struct Renewal {
  std::string number, address, company, path;
  Due due;
};
/// By day, then by case.
void sort_by_day(std::vector<Renewal>& all);

[[nodiscard]] std::string renewals_text(const std::vector<Renewal>& all);
/// RFC 4180; cells that a spreadsheet would run as a formula begin with an apostrophe.
[[nodiscard]] std::string renewals_csv(const std::vector<Renewal>& all);
/// "version": 1; keys are only ever added.
[[nodiscard]] std::string renewals_json(const std::vector<Renewal>& all);
/// RFC 5545. Each entry is a whole day without time or zone; its UID is the same in every run. `stamp` is the day on
/// which the calendar is written.
[[nodiscard]] std::string renewals_ics(const std::vector<Renewal>& all, Date stamp);

/// One content line of RFC 5545: folded so that none is longer than 75 octets, never within a letter; CRLF at its end.
[[nodiscard]] std::string content_line(const std::string& name, const std::string& value);
/// Backslash, semicolon, comma and line break as RFC 5545, 3.3.11, writes them in a TEXT.
[[nodiscard]] std::string ics_text(const std::string& text);

}  // namespace soundsill::listing
