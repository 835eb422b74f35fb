// Serves yaml/tree.h.
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include <algorithm>
#include <sstream>
#include <stdexcept>

#include "source/most.h"
#include "yaml/packed.h"
#include "yaml/read_build.h"
#include "yaml/read_encoding.h"
#include "yaml/read_scan.h"
#include "yaml/read_words.h"
#include "yaml/tree.h"

namespace soundsill::yaml {
namespace {

/// The parser's events, at byte offsets, handed to the builder.
class Events : public YAML::EventHandler {
 public:
  Events(Builder& builder, std::size_t shift) : builder_(builder), shift_(shift) {}

  void OnDocumentStart(const YAML::Mark& mark) override { builder_.document(at(mark)); }
  void OnDocumentEnd() override {}
  void OnNull(const YAML::Mark& mark, YAML::anchor_t) override { builder_.null(at(mark)); }
  // Anchors and aliases were reported and blotted out before; should one come through, the tree is refused.
  void OnAlias(const YAML::Mark&, YAML::anchor_t) override { throw std::runtime_error("alias"); }
  void OnAnchor(const YAML::Mark&, const std::string&) override { throw std::runtime_error("anchor"); }
  void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t, const std::string& value) override {
    builder_.scalar(at(mark), value, tag == "!");
  }
  void OnSequenceStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t,
                       YAML::EmitterStyle::value style) override {
    builder_.begin(Node::Kind::sequence, at(mark), style == YAML::EmitterStyle::Flow);
  }
  void OnSequenceEnd() override { builder_.end(); }
  void OnMapStart(const YAML::Mark& mark, const std::string&, YAML::anchor_t,
                  YAML::EmitterStyle::value style) override {
    builder_.begin(Node::Kind::mapping, at(mark), style == YAML::EmitterStyle::Flow);
  }
  void OnMapEnd() override { builder_.end(); }

  [[nodiscard]] std::size_t at(const YAML::Mark& mark) const {
    return shift_ + static_cast<std::size_t>(mark.pos < 0 ? 0 : mark.pos);
  }

 private:
  Builder& builder_;
  std::size_t shift_;  ///< the parser does not count a byte order mark
};

/// Runs the parser; what it cannot read is reported only if nothing before explains it.
bool parse(const Scan& scan, Builder& builder, Report& report, std::size_t faults_of_scan) {
  const std::size_t shift = byte_order_mark(scan.text);
  Events events(builder, shift);
  std::size_t place = 0;
  try {
    std::istringstream in(scan.text.substr(shift));
    YAML::Parser parser(in);
    // Never past the second: behind a stray comma the parser gives empty documents for ever.
    while (builder.documents() < 2 && parser.HandleNextDocument(events)) {
    }
    return true;
  } catch (const YAML::Exception& e) {
    place = events.at(e.mark);
  } catch (const std::exception&) {
    place = builder.place();
  }
  if (faults_of_scan == 0) words::unreadable(report, std::min(place, scan.text.size()));
  return false;
}

}  // namespace

std::optional<Node> read(const Source& source, Faults& faults) {
  if (!source.tree().empty()) return unpack(source.tree(), source);
  Report report(source, faults);
  const std::string_view text = source.text();
  if (text.size() > most::text_bytes) {
    words::too_large(report);
    return std::nullopt;
  }
  if (!check_encoding(text, report)) return std::nullopt;
  const Scan found = scan(text, report);
  if (!found.parse) return std::nullopt;
  const std::size_t faults_of_scan = report.count();
  Builder builder(text, found, report, faults_of_scan == 0);
  const bool whole = parse(found, builder, report, faults_of_scan);
  if (!whole || !found.trusted || !builder.trusted() || report.full()) return std::nullopt;
  return builder.take();
}

}  // namespace soundsill::yaml
