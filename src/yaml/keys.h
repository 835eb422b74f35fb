// One table of keys drives reading, did-you-mean and everything else that is said about a file's format.
//
// A block of a file is a struct whose members are Field<T>; its table names each key, its member, whether it is needed,
// and what it means. A type T is made readable by a specialisation of Reading<T>.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/diagnostics.h"
#include "units/units.h"
#include "yaml/tree.h"
#include "yaml/words.h"

namespace soundsill::yaml {

/// A value with its place. Not written, written but unreadable (a fault was reported), or read.
template <class T>
class Field {
 public:
  Span at;   ///< of the value as written
  Span key;  ///< of the key

  [[nodiscard]] bool written() const { return static_cast<bool>(key); }
  [[nodiscard]] bool unread() const { return written() && !value_; }
  explicit operator bool() const { return value_.has_value(); }
  const T& operator*() const { return *value_; }
  const T* operator->() const { return &*value_; }
  [[nodiscard]] T value_or(T other) const { return value_ ? *value_ : std::move(other); }
  void set(T value) { value_ = std::move(value); }
  /// Makes an empty value to be filled in place: a block is large, and each move of it would be code of its own.
  T& start() { return value_.emplace(); }
  void drop() { value_.reset(); }

 private:
  std::optional<T> value_;
};

/// The items of a list; none when it was not written or could not be read.
template <class T>
[[nodiscard]] const std::vector<T>& items(const Field<std::vector<T>>& list) {
  static const std::vector<T> nothing;
  return list ? *list : nothing;
}

/// Base of every struct that is read from a block: where the block stands.
struct Placed {
  Span at;
};

enum class Need {
  always,     ///< a fault when it is not written
  sometimes,  ///< a rule says when; the words stand in Key::when
  never,
};

struct Block;
class Reader;

/// What a kind of value looks like, for messages and for the published schema.
struct Shape {
  enum class Kind { text, code, yes_no, whole, number, money, length, percent, date, time, choice, free, block };
  Kind kind = Kind::text;
  bool list = false;                            ///< a list of these; one alone counts as a list of one
  std::span<const std::string_view> choices{};  ///< of kind choice
  const Block& (*block)() = nullptr;            ///< of kind block
  std::string_view says{};                      ///< of kind free: how it is written
  std::string_view schema{};                    ///< of kind free: the same as a JSON Schema
};

struct Key {
  std::string_view name;
  Need need;
  std::string_view doc;
  std::string_view when;  ///< for Need::sometimes
  Shape shape;
  void (*read)(Reader&, const Entry&, void* object);
};

struct Block {
  std::string_view name;  ///< with its article: "a finding"
  std::span<const Key> keys;
};

/// Carries the faults through the reading of one file.
class Reader {
 public:
  /// Takes the faults that reading the tree left, so that one cause gives one message.
  explicit Reader(Faults& faults) : faults_(faults), of_tree_(faults.all().size()) {}
  Faults& faults() { return faults_; }

  /// Reads a mapping into the object of a block; reports unknown, doubled and missing keys.
  bool block(const Node& node, Span place, const Block& block, void* object);
  void wrong_shape(const Node& node, std::string_view wanted);
  void unknown_choice(const Node& node, std::span<const std::string_view> choices);
  /// Reports a scalar that does not read as its kind.
  void bad(Rule rule, const Node& node, std::string_view wanted, std::string_view fix);
  /// The scalar text, or nothing after reporting that a list or block stands there.
  const std::string* scalar(const Node& node, std::string_view wanted);

 private:
  [[nodiscard]] bool spoiled(const Span& block) const;

  Faults& faults_;
  std::size_t of_tree_;  ///< how many faults the tree had
};

/// How a type is read. A specialisation has `static Shape shape()` and
/// `static std::optional<T> read(Reader&, const Node&)`, which reports a fault whenever it gives nothing.
template <class T>
struct Reading;

/// Text that must be quoted when it consists of digits (zip codes, license numbers).
struct Code {
  std::string text;
};

#define SOUNDSILL_READING(type, kind_)                                      \
  template <>                                                               \
  struct Reading<type> {                                                    \
    static constexpr Shape shape() { return {.kind = Shape::Kind::kind_}; } \
    static std::optional<type> read(Reader& reader, const Node& node);      \
  };
SOUNDSILL_READING(std::string, text)
SOUNDSILL_READING(Code, code)
SOUNDSILL_READING(bool, yes_no)
SOUNDSILL_READING(int, whole)
SOUNDSILL_READING(Ratio, number)
SOUNDSILL_READING(Money, money)
SOUNDSILL_READING(Length, length)
SOUNDSILL_READING(Inches, length)
SOUNDSILL_READING(Percent, percent)
SOUNDSILL_READING(Date, date)
SOUNDSILL_READING(TimeOfDay, time)
#undef SOUNDSILL_READING

template <HasWords E>
struct Reading<E> {
  static_assert(has_a_word_each<E>(), "an enum and its words differ in number");
  static constexpr Shape shape() { return {.kind = Shape::Kind::choice, .choices = Words<E>::words}; }
  static std::optional<E> read(Reader& reader, const Node& node) {
    if (const std::string* text = reader.scalar(node, "one of its words"))
      for (std::size_t i = 0; i < Words<E>::words.size(); ++i)
        if (Words<E>::words[i] == *text) return static_cast<E>(i);
    if (node.is_scalar()) reader.unknown_choice(node, Words<E>::words);
    return std::nullopt;
  }
};

template <class T>
concept BlockType = requires {
  { T::block() } -> std::same_as<const Block&>;
};

template <BlockType T>
struct Reading<T> {
  static constexpr Shape shape() { return {.kind = Shape::Kind::block, .block = &T::block}; }
  static bool fill(Reader& reader, const Node& node, T& object) {
    object.at = node.span;
    return reader.block(node, node.span, T::block(), &object);
  }
};

/// Blocks and lists: their `static bool fill(Reader&, const Node&, T&)` stands for `read`.
template <class T>
concept FilledInPlace = requires(Reader& reader, const Node& node, T& object) {
  Reading<T>::fill(reader, node, object);
};

/// A list keeps the items that could be read; the faults of the others are reported. One item alone counts as a list.
template <class T>
struct Reading<std::vector<T>> {
  static constexpr Shape shape() {
    Shape s = Reading<T>::shape();
    s.list = true;
    return s;
  }
  static bool fill(Reader& reader, const Node& node, std::vector<T>& list) {
    const bool many = node.is_sequence();
    const std::size_t count = many ? node.items.size() : 1;
    list.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
      const Node& item = many ? node.items[i] : node;
      if constexpr (FilledInPlace<T>) {
        if (!Reading<T>::fill(reader, item, list.emplace_back())) list.pop_back();
      } else if (auto value = Reading<T>::read(reader, item)) {
        list.push_back(std::move(*value));
      }
    }
    return true;
  }
};

namespace detail {
template <class M>
struct Member;
template <class S, class T>
struct Member<Field<T> S::*> {
  using Struct = S;
  using Value = T;
};
/// Keeps where an entry stands; false when it has no value, which was reported while the tree was read.
[[nodiscard]] bool placed(const Entry& entry, Span& key, Span& at);
}  // namespace detail

/// A row of a key table: key<&Finding::state>("state", Need::sometimes, "...", "of evidence").
template <auto M>
[[nodiscard]] constexpr Key key(std::string_view name, Need need, std::string_view doc, std::string_view when = {}) {
  using Struct = typename detail::Member<decltype(M)>::Struct;
  using Value = typename detail::Member<decltype(M)>::Value;
  return {name, need, doc, when, Reading<Value>::shape(), [](Reader& reader, const Entry& entry, void* object) {
            auto& field = static_cast<Struct*>(object)->*M;
            if (!detail::placed(entry, field.key, field.at)) return;
            if constexpr (FilledInPlace<Value>) {
              if (!Reading<Value>::fill(reader, entry.value, field.start())) field.drop();
            } else if (auto value = Reading<Value>::read(reader, entry.value)) {
              field.set(std::move(*value));
            }
          }};
}

/// Whether a text begins with so many digits that no length of a house is meant.
[[nodiscard]] bool begins_huge(std::string_view text);

/// Names of a block's keys in the order of its table.
[[nodiscard]] std::vector<std::string_view> names(const Block& block);
/// "a, b or c"
[[nodiscard]] std::string listed(std::span<const std::string_view> words, std::string_view last = "or");

}  // namespace soundsill::yaml
