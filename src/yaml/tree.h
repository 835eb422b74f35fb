// A neutral tree of a YAML file in which every key and value keeps its place.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "diagnostics/diagnostics.h"
#include "source/source.h"

namespace soundsill::yaml {

struct Entry;

/// One value. `span` covers the value as written: a scalar with its quotes, a flow collection with its brackets; for a
/// block collection its first line; for an empty value the key (or the dash) it belongs to.
struct Node {
  enum class Kind { empty, scalar, sequence, mapping };
  Kind kind = Kind::empty;
  Span span;
  std::string text;     ///< of a scalar
  bool quoted = false;  ///< a scalar written in quotes, or as a | or > block: text on purpose
  std::vector<Node> items;
  std::vector<Entry> entries;

  [[nodiscard]] bool is_scalar() const { return kind == Kind::scalar; }
  [[nodiscard]] bool is_sequence() const { return kind == Kind::sequence; }
  [[nodiscard]] bool is_mapping() const { return kind == Kind::mapping; }
  [[nodiscard]] bool is_empty() const { return kind == Kind::empty; }
  [[nodiscard]] const Entry* find(std::string_view key) const;
};

struct Entry {
  std::string key;
  Span key_span;
  Node value;
};

/// Reads a YAML text strictly: whatever yaml-cpp lets pass and a person did not mean is a fault. Gives nothing when the
/// tree cannot be trusted; then at least one error was added.
[[nodiscard]] std::optional<Node> read(const Source& source, Faults& faults);

}  // namespace soundsill::yaml
