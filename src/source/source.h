// Texts with names, and where things stand in them.
#pragma once

#include <cstddef>
#include <cstdint>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

namespace soundsill {

/// One text with its name. Immutable, so spans into it stay true.
class Source {
 public:
  /// `tree` is what yaml/packed.h made of the text before, or empty; it outlives the source.
  Source(std::string name, std::string text, std::string_view tree = {});

  [[nodiscard]] const std::string& name() const { return name_; }
  [[nodiscard]] std::string_view text() const { return text_; }
  [[nodiscard]] std::string_view tree() const { return tree_; }

  /// Line and column count from 1; the column counts letters (code points), not bytes.
  struct Position {
    std::size_t line;
    std::size_t column;
  };
  [[nodiscard]] Position position(std::size_t offset) const;
  /// The line without its end-of-line; an empty view past the last line.
  [[nodiscard]] std::string_view line(std::size_t number) const;
  /// Byte offset of the first letter of a line.
  [[nodiscard]] std::size_t line_begin(std::size_t number) const;

 private:
  std::string name_;
  std::string text_;
  std::string_view tree_;
  std::vector<std::size_t> starts_;
};

/// A piece of a source, in bytes, end exclusive. Without a source it points nowhere.
struct Span {
  const Source* source = nullptr;
  std::uint32_t begin = 0;
  std::uint32_t end = 0;

  explicit operator bool() const { return source != nullptr; }
  friend bool operator==(const Span&, const Span&) = default;
};

/// Owns the sources of one run; their addresses stay fixed.
class Sources {
 public:
  const Source& add(std::string name, std::string text, std::string_view tree = {}) {
    return all_.emplace_back(std::move(name), std::move(text), tree);
  }

 private:
  std::deque<Source> all_;
};

/// Number of letters (UTF-8 code points) in a text.
[[nodiscard]] std::size_t letters(std::string_view text);

}  // namespace soundsill
