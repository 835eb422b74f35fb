// Builds the tree from the parser's events, giving each value the place that the scan found for it.
#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "yaml/read_scan.h"
#include "yaml/tree.h"

namespace soundsill::yaml {

class Builder {
 public:
  /// `clean`: the scan found no fault, so that a surprise is worth a message.
  Builder(std::string_view text, const Scan& scan, Report& report, bool clean)
      : text_(text), scan_(scan), report_(report), clean_(clean) {}

  void document(std::size_t at);
  void scalar(std::size_t at, const std::string& value, bool quoted);
  void null(std::size_t at);
  void begin(Node::Kind kind, std::size_t at, bool flow);
  void end();

  [[nodiscard]] bool trusted() const { return trusted_ && root_.has_value(); }
  [[nodiscard]] std::size_t documents() const { return documents_; }
  [[nodiscard]] std::size_t place() const { return place_; }
  [[nodiscard]] Node take() { return std::move(*root_); }

 private:
  struct Key {
    std::string text;
    Span span;
    bool hushed = false;
    bool dropped = false;  ///< its entry was reported and is left out
  };
  struct Frame {
    Node node;
    std::optional<Key> key;
    std::unordered_map<std::string, Span> seen;
  };

  [[nodiscard]] bool wants_key() const;
  void set_key(std::size_t at, const std::string& text, const Piece& piece);
  void add(Node node);
  void empty_value(std::size_t at);
  [[nodiscard]] Piece piece_at(std::size_t at) const;
  [[nodiscard]] std::size_t flow_end(std::size_t at) const;
  [[nodiscard]] std::string_view comment_behind(std::size_t at) const;

  std::string_view text_;
  const Scan& scan_;
  Report& report_;
  bool clean_;
  bool trusted_ = true;
  std::size_t documents_ = 0;
  std::size_t place_ = 0;
  std::vector<Frame> frames_;
  std::optional<Node> root_;
};

}  // namespace soundsill::yaml
