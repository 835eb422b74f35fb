// Serves listing/review.h. Faults as SARIF 2.1.0, the OASIS standard for results of static checks.
#include <nlohmann/json.hpp>

#include "listing/review.h"

namespace soundsill::listing {
namespace {

using Json = nlohmann::ordered_json;

const char* level(Severity severity) { return severity == Severity::error ? "error" : "warning"; }

/// A path as a relative URI: what is no letter, digit or plain sign becomes %XX.
std::string uri(std::string_view path) {
  static constexpr char digits[] = "0123456789ABCDEF";
  std::string out;
  for (const char c : path) {
    const auto byte = static_cast<unsigned char>(c);
    const bool plain = (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') || (byte >= '0' && byte <= '9') ||
                       std::string_view("-._~/").find(c) != std::string_view::npos;
    if (plain)
      out += c;
    else
      out += {'%', digits[byte >> 4U], digits[byte & 15U]};
  }
  return out;
}

Json rules() {
  Json out = Json::array();
  for (const RuleInfo& rule : catalogue())
    out.push_back({{"id", rule.code},
                   {"shortDescription", {{"text", rule.doc}}},
                   {"fullDescription", {{"text", rule.why}}},
                   {"defaultConfiguration", {{"level", level(rule.severity)}}}});
  return out;
}

std::string dump(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

std::string opening(std::string_view version) {
  const Json driver = {{"name", "soundsill"}, {"version", version}, {"rules", rules()}};
  return "{\"$schema\": "
         "\"https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json\", "
         "\"version\": \"2.1.0\", \"runs\": [{\"columnKind\": \"unicodeCodePoints\", \"tool\": {\"driver\": " +
         dump(driver) + "}, \"results\": [";
}
constexpr std::string_view closing = "\n]}]}\n";

Json result(const ToldFault& fault) {
  const RuleInfo& rule = info(fault.rule);
  std::string text = fault.what + ".";
  if (!fault.why.empty()) text += " Why: " + fault.why + ".";
  if (!fault.fix.empty()) text += " Fix: " + fault.fix + ".";
  Json out = {{"ruleId", rule.code},
              {"ruleIndex", static_cast<int>(fault.rule)},
              {"level", level(fault.severity())},
              {"message", {{"text", safe_line(text)}}}};
  if (fault.file.empty()) return out;
  Json place = {{"artifactLocation", {{"uri", uri(fault.file)}}}};
  if (fault.line > 0)
    place["region"] = {{"startLine", fault.line},
                       {"startColumn", fault.column},
                       {"endLine", fault.end_line},
                       {"endColumn", fault.end_column}};
  out["locations"] = Json::array({{{"physicalLocation", place}}});
  return out;
}

class SarifReview : public ReviewWriter {
 public:
  SarifReview(ReviewFrame frame, Put put) : frame_(std::move(frame)), put_(std::move(put)) {}
  bool begin() override { return put_(opening(frame_.version)); }
  bool row(const ReviewRow& row) override {
    std::string out;
    for (const ToldFault& fault : row.faults) {
      out += (first_ ? "\n" : ",\n") + dump(result(fault));
      first_ = false;
    }
    return put_(out);
  }
  bool end(const ReviewTally&) override { return put_(closing); }

 private:
  ReviewFrame frame_;
  Put put_;
  bool first_ = true;
};

}  // namespace

std::string faults_sarif(const Faults& faults, std::string_view version) {
  std::string out = opening(version);
  bool first = true;
  for (const Diagnostic& d : faults.all()) {
    out += (first ? "\n" : ",\n") + dump(result(told(d)));
    first = false;
  }
  return out + std::string(closing);
}

std::unique_ptr<ReviewWriter> sarif_review(ReviewFrame frame, Put put) {
  return std::make_unique<SarifReview>(std::move(frame), std::move(put));
}

}  // namespace soundsill::listing
