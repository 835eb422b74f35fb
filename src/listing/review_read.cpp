// Serves listing/review.h. A review that was written as JSON, read back: so that the lists of many machines become one.
#include <algorithm>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "listing/review.h"

namespace soundsill::listing {
namespace {

using Json = nlohmann::json;

/// What is not as `review` writes it.
struct Foreign : std::runtime_error {
  using std::runtime_error::runtime_error;
};

const Json& member(const Json& json, const char* key) {
  if (!json.is_object() || !json.contains(key)) throw Foreign("`" + std::string(key) + "` is missing");
  return json[key];
}
std::string text(const Json& json, const char* key) {
  const Json& value = member(json, key);
  if (!value.is_string()) throw Foreign("`" + std::string(key) + "` is no text");
  return value.get<std::string>();
}
std::size_t number(const Json& json, const char* key) {
  const Json& value = member(json, key);
  if (!value.is_number_unsigned()) throw Foreign("`" + std::string(key) + "` is no whole number");
  return value.get<std::size_t>();
}
bool yes(const Json& json, const char* key) {
  const Json& value = member(json, key);
  if (!value.is_boolean()) throw Foreign("`" + std::string(key) + "` is neither true nor false");
  return value.get<bool>();
}
const Json& list(const Json& json, const char* key) {
  const Json& value = member(json, key);
  if (!value.is_array()) throw Foreign("`" + std::string(key) + "` is no list");
  return value;
}
std::optional<Date> day(const Json& json, const char* key) {
  const std::string written = text(json, key);
  if (written.empty()) return std::nullopt;
  const auto date = read_date(written);
  if (!date) throw Foreign("`" + std::string(key) + "` is no day");
  return date;
}

ToldFault fault_of(const Json& json) {
  const std::string code = text(json, "rule");
  const RuleInfo* rule = rule_of(code);
  if (!rule) throw Foreign("no rule is called `" + code + "`; another version of soundsill wrote it");
  return {rule->rule,
          text(json, "file"),
          number(json, "line"),
          number(json, "column"),
          number(json, "end_line"),
          number(json, "end_column"),
          text(json, "what"),
          text(json, "why"),
          text(json, "fix"),
          rule->severity == Severity::error && text(json, "severity") == "warning" ? Rests::unread : Rests::read};
}

Attention attention_of(const std::string& word) {
  const auto* const found = std::find(std::begin(attention_words), std::end(attention_words), word);
  if (found == std::end(attention_words)) throw Foreign("`" + word + "` asks for no attention that is known");
  return static_cast<Attention>(found - std::begin(attention_words));
}

ReviewRow row_of(const Json& json) {
  ReviewRow row;
  row.path = text(json, "file");
  row.number = text(json, "case");
  row.address = text(json, "address");
  row.form = text(json, "form");
  row.visited = day(json, "visited");
  row.closing = day(json, "closing");
  row.holds_until = day(json, "holds_until");
  row.renewal = day(json, "renewal");
  row.record = text(json, "record");
  row.errors = number(json, "errors");
  row.warnings = number(json, "warnings");
  row.unreadable = yes(json, "unreadable");
  for (const Json& one : list(json, "kept")) row.kept.push_back(one.get<std::string>());
  for (const Json& one : list(json, "attention")) row.attention.push_back(attention_of(one.get<std::string>()));
  for (const Json& one : list(json, "faults")) row.faults.push_back(fault_of(one));
  return row;
}

ReviewPart part_of(const Json& json) {
  if (number(json, "version") != 1) throw Foreign("its `version` is not 1");
  ReviewPart part;
  const auto today = day(json, "today");
  if (!today) throw Foreign("`today` is no day");
  part.today = *today;
  part.within = static_cast<int>(std::min<std::size_t>(number(json, "within"), 3660));
  for (const Json& row : list(json, "cases")) part.rows.push_back(row_of(row));
  for (const Json& one : list(json, "not_read")) part.tally.not_read.push_back({text(one, "path"), text(one, "why")});
  // Of all cases, while `cases` may hold only those that --only picked.
  const Json& counts = member(json, "counts");
  part.tally.cases = number(counts, "cases");
  part.tally.errors = number(counts, "errors");
  part.tally.warnings = number(counts, "warnings");
  part.tally.unreadable = number(counts, "unreadable");
  const Json& asking = member(counts, "attention");
  for (std::size_t i = 0; i < std::size(attention_words); ++i)
    part.tally.asking[i] = number(asking, std::string(attention_words[i]).c_str());
  return part;
}

}  // namespace

ReadPart read_review(std::string_view json) {
  try {
    return {part_of(Json::parse(json)), {}};
  } catch (const Foreign& e) {
    return {std::nullopt, e.what()};
  } catch (const Json::exception& e) {
    const std::string_view said = e.what();  // "[json.exception.parse_error.101] parse error at line 1, column 2: ..."
    const auto end = said.find("] ");
    return {std::nullopt, std::string(end == std::string_view::npos ? said : said.substr(end + 2))};
  }
}

void ReviewTally::add(const ReviewTally& more) {
  cases += more.cases;
  errors += more.errors;
  warnings += more.warnings;
  unreadable += more.unreadable;
  for (std::size_t i = 0; i < std::size(attention_words); ++i) asking[i] += more.asking[i];
  not_read.insert(not_read.end(), more.not_read.begin(), more.not_read.end());
}

}  // namespace soundsill::listing
