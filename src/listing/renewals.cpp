#include "listing/renewals.h"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <nlohmann/json.hpp>
#include <tuple>

#include "listing/csv.h"
#include "source/utf8.h"

namespace soundsill::listing {
namespace {

std::string what_of(const Renewal& r) {
  constexpr std::string_view words[] = {"renewal", "reinspection", "notice", "filing"};
  return std::string(words[static_cast<std::size_t>(r.due.what)]);
}

std::string fee_of(const Renewal& r) { return r.due.fee ? print(*r.due.fee) : std::string(); }
std::string looked_of(const Renewal& r) { return r.due.looked ? print(*r.due.looked) : std::string(); }

/// Whom it is about: the holder of the warranty, or whose office a paper goes to.
std::string holder_of(const Renewal& r) {
  return r.due.paper.empty() ? r.due.holder : r.due.paper + " with " + r.due.holder;
}

std::string plain(Money m) { return fmt::format("{}.{:02}", m.cents / 100, m.cents % 100); }

/// 20270310
std::string basic(const Date& d) {
  std::string out = print(d);
  std::erase(out, '-');
  return out;
}

/// FNV-1a, so that two companies' cases of one number have entries of their own.
std::string hash_of(const std::string& text) {
  std::uint64_t h = 14695981039346656037ULL;
  for (const char c : text) h = (h ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return fmt::format("{:016x}", h);
}

std::string uid_of(const Renewal& r) {
  return hash_of(r.company + "\n" + r.number + "\n" + r.address) + "-" + what_of(r) + "-" + basic(r.due.on) +
         "@soundsill.invalid";
}

std::string summary_of(const Renewal& r) {
  switch (r.due.what) {
    case Due::What::renewal:
      return "Warranty renewal" + (r.due.fee ? ", " + print(*r.due.fee) : std::string()) + ": " + r.address;
    case Due::What::reinspection:
      return "Reinspection: " + r.address;
    case Due::What::notice:
      return "Retreatment after the state's notice: " + r.address;
    case Due::What::filing:
      return "File the " + r.due.paper + " with " + r.due.holder + ": " + r.address;
  }
  return {};
}

}  // namespace

void sort_by_day(std::vector<Renewal>& all) {
  std::stable_sort(all.begin(), all.end(), [](const Renewal& a, const Renewal& b) {
    return std::tie(a.due.on, a.number, a.address) < std::tie(b.due.on, b.number, b.address);
  });
}

std::string renewals_text(const std::vector<Renewal>& all) {
  if (all.empty()) return "nothing comes due\n";
  std::string out = fmt::format("{:<10}  {:<12}  {:>9}  {:<14}  {:<10}  {}\n", "due", "what", "fee", "case",
                                "last look", "holder, address");
  for (const Renewal& r : all)
    out += fmt::format("{:<10}  {:<12}  {:>9}  {:<14}  {:<10}  {}, {}\n", print(r.due.on), what_of(r), fee_of(r),
                       r.number, looked_of(r), holder_of(r), r.address);
  return out;
}

std::string renewals_csv(const std::vector<Renewal>& all) {
  std::string out = csv_row({"due", "what", "fee", "case", "last look", "holder", "address", "file"});
  for (const Renewal& r : all)
    out += csv_row({print(r.due.on), what_of(r), r.due.fee ? plain(*r.due.fee) : std::string(), r.number, looked_of(r),
                    holder_of(r), r.address, safe_line(r.path)});
  return out;
}

std::string renewals_json(const std::vector<Renewal>& all) {
  using Json = nlohmann::ordered_json;
  Json list = Json::array();
  for (const Renewal& r : all) {
    Json one{{"due", print(r.due.on)}, {"what", what_of(r)},   {"case", r.number},
             {"holder", holder_of(r)}, {"address", r.address}, {"file", r.path}};
    one["fee"] = r.due.fee ? Json(plain(*r.due.fee)) : Json(nullptr);
    one["last_look"] = r.due.looked ? Json(print(*r.due.looked)) : Json(nullptr);
    list.push_back(std::move(one));
  }
  const Json out{{"version", 1}, {"due", list}};
  return out.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string ics_text(const std::string& text) {
  std::string out;
  for (const char c : text) {
    if (c == '\r') continue;
    if (c == '\n') {
      out += "\\n";
      continue;
    }
    if (c == '\\' || c == ';' || c == ',') out += '\\';
    out += c;
  }
  return out;
}

std::string content_line(const std::string& name, const std::string& value) {
  constexpr std::size_t most = 75;  // RFC 5545, 3.1, without the line break
  const std::string whole = name + ":" + value;
  std::string out;
  std::size_t room = most;
  for (std::size_t at = 0; at < whole.size();) {
    const std::size_t letter = utf8::end_of_letter(whole, at) - at;  // a letter is not torn
    if (letter > room) {
      out += "\r\n ";
      room = most - 1;
    }
    out.append(whole, at, letter);
    room -= letter;
    at += letter;
  }
  return out + "\r\n";
}

std::string renewals_ics(const std::vector<Renewal>& all, Date stamp) {
  std::string out = content_line("BEGIN", "VCALENDAR") + content_line("VERSION", "2.0") +
                    content_line("PRODID", "-//soundsill//renew//EN") + content_line("CALSCALE", "GREGORIAN");
  std::map<std::string, int> told;  // two of one kind on one day, of cases that cannot be told apart
  for (const Renewal& r : all) {
    std::string uid = uid_of(r);
    if (const int before = told[uid]++; before > 0) uid = fmt::format("{}-{}", before + 1, uid);
    std::string more = "Case " + r.number + (r.due.paper.empty() ? "\nHolder: " : "\nPaper: ") + holder_of(r);
    if (r.due.looked) more += "\nLast look: " + print(*r.due.looked);
    out += content_line("BEGIN", "VEVENT") + content_line("UID", uid) +
           content_line("DTSTAMP", basic(stamp) + "T000000Z") + content_line("DTSTART;VALUE=DATE", basic(r.due.on)) +
           content_line("DTEND;VALUE=DATE", basic(plus_days(r.due.on, 1))) +
           content_line("SUMMARY", ics_text(summary_of(r))) + content_line("LOCATION", ics_text(r.address)) +
           content_line("DESCRIPTION", ics_text(more)) + content_line("TRANSP", "TRANSPARENT") +
           content_line("END", "VEVENT");
  }
  return out + content_line("END", "VCALENDAR");
}

}  // namespace soundsill::listing
