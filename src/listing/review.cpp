#include "listing/review.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "listing/csv.h"
#include "listing/listing.h"

namespace soundsill::listing {

ToldFault told(const Diagnostic& fault) {
  ToldFault out{
      fault.rule, {}, 0, 0, 0, 0, whole_letters(fault.what), whole_letters(fault.why), whole_letters(fault.fix),
      fault.rests};
  if (!fault.at) return out;
  const Source& source = *fault.at.source;
  const auto begin = source.position(fault.at.begin), end = source.position(fault.at.end);
  out.file = whole_letters(source.name());
  out.line = begin.line, out.column = begin.column;
  out.end_line = end.line, out.end_column = end.column;
  return out;
}

bool ReviewRow::asks(Attention what) const {
  return std::find(attention.begin(), attention.end(), what) != attention.end();
}

void ReviewTally::add(const ReviewRow& row) {
  ++cases;
  unreadable += row.unreadable;
  errors += row.errors;
  warnings += row.warnings;
  for (const Attention a : row.attention) ++asking[static_cast<std::size_t>(a)];
}

namespace {

using Json = nlohmann::ordered_json;

std::string dump(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }
std::string day(const std::optional<Date>& date) { return date ? print(*date) : std::string(); }
std::string_view word(Attention a) { return attention_words[static_cast<std::size_t>(a)]; }

std::string words_of(const std::vector<Attention>& all) {
  std::string out;
  for (const Attention a : all) out += (out.empty() ? "" : ", ") + std::string(word(a));
  return out;
}

/// The first error, else the first warning.
const ToldFault* first_fault(const ReviewRow& row) {
  for (const ToldFault& f : row.faults)
    if (f.severity() == Severity::error) return &f;
  return row.faults.empty() ? nullptr : &row.faults.front();
}

class TextReview : public ReviewWriter {
 public:
  TextReview(ReviewFrame frame, Put put) : frame_(std::move(frame)), put_(std::move(put)) {}

  bool begin() override {
    return put_(fmt::format("{:<10}  {:<10}  {:<10}  {:<10}  {:>6}  {:>8}  {}\n", "case", "visited", "closing",
                            "holds to", "errors", "warnings", "address and file"));
  }

  bool row(const ReviewRow& row) override {
    std::string out =
        fmt::format("{:<10}  {:<10}  {:<10}  {:<10}  {:>6}  {:>8}  {}\n", row.number.empty() ? "?" : row.number,
                    day(row.visited), day(row.closing), day(row.holds_until), row.errors, row.warnings,
                    row.address.empty() ? safe_line(row.path) : row.address + "  (" + safe_line(row.path) + ")");
    if (!row.attention.empty()) out += "            " + words_of(row.attention) + renewal(row) + "\n";
    if (const ToldFault* f = first_fault(row)) {
      const std::string more = row.faults.size() > 1 ? fmt::format("; {} more", row.faults.size() - 1) : "";
      out += fmt::format("            {} [{}]{}\n", safe_line(f->what), info(f->rule).code, more);
    }
    for (const std::string& kept : row.kept) out += "            " + kept + "\n";
    return put_(safe_for_terminal(out));
  }

  bool end(const ReviewTally& t) override {
    std::string out = fmt::format("\n{} {}: {} not ready", t.cases, t.cases == 1 ? "case" : "cases",
                                  t.asking[static_cast<std::size_t>(Attention::not_ready)]);
    const auto count = [&](Attention a, std::string_view words) {
      out += fmt::format(", {} {}", t.asking[static_cast<std::size_t>(a)], words);
    };
    count(Attention::lapsing, "lapsing");
    count(Attention::closing, "closing");
    count(Attention::renewal, "with a renewal");
    out += fmt::format(" from {} to {}", print(frame_.today), print(plus_days(frame_.today, frame_.within)));
    count(Attention::no_record, "treated without a record");
    return put_(out + "\n");
  }

 private:
  static std::string renewal(const ReviewRow& row) {
    return row.renewal ? " (warranty to " + print(*row.renewal) + ")" : std::string();
  }
  ReviewFrame frame_;
  Put put_;
};

class CsvReview : public ReviewWriter {
 public:
  explicit CsvReview(Put put) : put_(std::move(put)) {}
  bool begin() override {
    return put_(csv_row({"case", "address", "form", "visited", "closing", "holds until", "renewal", "record", "errors",
                         "warnings", "attention", "first fault", "rule", "file"}));
  }
  bool row(const ReviewRow& row) override {
    const ToldFault* f = first_fault(row);
    return put_(csv_row({row.number, row.address, row.form, day(row.visited), day(row.closing), day(row.holds_until),
                         day(row.renewal), row.record, std::to_string(row.errors), std::to_string(row.warnings),
                         words_of(row.attention), f ? safe_line(f->what) : "", f ? std::string(info(f->rule).code) : "",
                         safe_line(row.path)}));
  }
  bool end(const ReviewTally&) override { return true; }

 private:
  Put put_;
};

Json json_of(const ReviewRow& row) {
  Json faults = Json::array(), attention = Json::array();
  for (const ToldFault& f : row.faults)
    faults.push_back({{"rule", info(f.rule).code},
                      {"severity", f.severity() == Severity::error ? "error" : "warning"},
                      {"file", f.file},
                      {"line", f.line},
                      {"column", f.column},
                      {"end_line", f.end_line},
                      {"end_column", f.end_column},
                      {"what", f.what},
                      {"why", f.why},
                      {"fix", f.fix}});
  for (const Attention a : row.attention) attention.push_back(word(a));
  return {{"file", row.path},
          {"case", row.number},
          {"address", row.address},
          {"form", row.form},
          {"visited", day(row.visited)},
          {"closing", day(row.closing)},
          {"holds_until", day(row.holds_until)},
          {"renewal", day(row.renewal)},
          {"record", row.record},
          {"kept", row.kept},
          {"errors", row.errors},
          {"warnings", row.warnings},
          {"unreadable", row.unreadable},
          {"attention", attention},
          {"faults", faults}};
}

class JsonReview : public ReviewWriter {
 public:
  JsonReview(ReviewFrame frame, Put put) : frame_(std::move(frame)), put_(std::move(put)) {}
  bool begin() override {
    return put_(fmt::format("{{\"version\": 1, \"today\": \"{}\", \"within\": {}, \"cases\": [", print(frame_.today),
                            frame_.within));
  }
  bool row(const ReviewRow& row) override {
    const std::string out = (first_ ? "\n" : ",\n") + dump(json_of(row));
    first_ = false;
    return put_(out);
  }
  bool end(const ReviewTally& t) override {
    Json asking = Json::object();
    for (std::size_t i = 0; i < std::size(attention_words); ++i) asking[std::string(attention_words[i])] = t.asking[i];
    const Json counts = {{"cases", t.cases},
                         {"errors", t.errors},
                         {"warnings", t.warnings},
                         {"unreadable", t.unreadable},
                         {"attention", asking}};
    Json not_read = Json::array();
    for (const NotRead& n : t.not_read) not_read.push_back({{"path", n.path}, {"why", n.why}});
    return put_(fmt::format("\n], \"not_read\": {}, \"counts\": {}}}\n", dump(not_read), dump(counts)));
  }

 private:
  ReviewFrame frame_;
  Put put_;
  bool first_ = true;
};

}  // namespace

std::unique_ptr<ReviewWriter> review_writer(std::string_view format, ReviewFrame frame, Put put) {
  if (format == "csv") return std::make_unique<CsvReview>(std::move(put));
  if (format == "json") return std::make_unique<JsonReview>(std::move(frame), std::move(put));
  if (format == "html") return html_review(std::move(frame), std::move(put));
  if (format == "sarif") return sarif_review(std::move(frame), std::move(put));
  return std::make_unique<TextReview>(std::move(frame), std::move(put));
}

}  // namespace soundsill::listing
