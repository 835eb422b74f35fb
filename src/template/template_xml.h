// Strict reading of XML elements: what is asked for is allowed, all else is a fault at its place. An element may stand
// in several files: what one template does not say is read from the template that it is based on.
#pragma once

#include <initializer_list>
#include <optional>
#include <pugixml.hpp>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "diagnostics/diagnostics.h"
#include "pages/pages.h"
#include "source/source.h"

namespace soundsill::page {

/// A name with its meaning, for closed choices.
template <class T>
using Choices = std::span<const std::pair<std::string_view, T>>;

/// What to write instead of a word that is not known: the nearest known one, or one of all of them.
[[nodiscard]] std::string meant(std::string_view word, std::span<const std::string_view> known);

/// The parsed text. pugixml works inside our own copy, so that its pointers tell offsets in the source.
class XmlText {
 public:
  XmlText(const Source& source, Faults& faults);

  [[nodiscard]] pugi::xml_node root() const { return root_; }
  [[nodiscard]] const Source& source() const { return source_; }
  void fault(Span at, std::string what, std::string fix);
  [[nodiscard]] bool sound() const { return sound_; }
  /// Says where this text names the file that it is based on; its faults show that place as a second one.
  void based_on(Span at, const Source& base) { base_ = Note{at, "it is based on " + base.name()}; }

  [[nodiscard]] Span name_span(pugi::xml_node node) const;
  [[nodiscard]] Span name_span(pugi::xml_attribute attribute) const;
  [[nodiscard]] Span value_span(pugi::xml_attribute attribute) const;

 private:
  void parse();
  void find_root();
  [[nodiscard]] Span span_of(std::size_t begin, std::size_t length) const;

  const Source& source_;
  Faults& faults_;
  std::string buffer_;
  pugi::xml_document document_;
  pugi::xml_node root_;
  std::optional<Note> base_;
  bool sound_ = true;
};

/// An element as one file gives it.
struct Layer {
  XmlText* text;
  pugi::xml_node node;
};

/// An element as all files together give it: the template's own layer first, then that of the template it is based on,
/// and so on. A file that does not mention the element has no layer; without any the element is absent.
struct Layers : std::vector<Layer> {
  using vector::vector;
  explicit operator bool() const { return !empty(); }
  /// Where the nearest file gives the element; nowhere when it is absent.
  [[nodiscard]] Span place() const { return empty() ? Span{} : front().text->name_span(front().node); }
  void fault(std::string what, std::string fix) const;  ///< at that place
};

/// One element while it is read. Attributes and children that were never asked for are faults when it is closed, in
/// whichever file they stand.
class Element {
 public:
  explicit Element(Layers layers) : layers_(std::move(layers)) {}
  Element(const Element&) = delete;
  Element& operator=(const Element&) = delete;
  ~Element() { close(); }

  // Children. one() is required and stands once in a file; the others may be empty.
  [[nodiscard]] Layers one(std::string_view name);
  /// Children whose order counts: those of the nearest file that has any.
  [[nodiscard]] std::vector<Layers> all(std::string_view name);
  /// Children that are known by their attribute `name`: those of all files, each laid over its namesake.
  [[nodiscard]] std::vector<Layers> named(std::string_view name);

  // Attributes, each from the nearest file that gives it. Without a default they are required.
  [[nodiscard]] std::string word(const char* name);
  [[nodiscard]] std::string own_word(const char* name);  ///< from the nearest file alone
  [[nodiscard]] std::string word(const char* name, std::string_view otherwise);
  [[nodiscard]] Milli length(const char* name);
  [[nodiscard]] Milli length(const char* name, Milli otherwise);
  [[nodiscard]] std::vector<Milli> lengths(const char* name);  ///< "3pt 2pt"; absent is empty
  [[nodiscard]] std::vector<int> numbers(const char* name);    ///< rising whole numbers; required
  [[nodiscard]] int number(const char* name, int otherwise, int least, int most);
  [[nodiscard]] int number(const char* name, int least, int most);  ///< required; `least` after a fault
  [[nodiscard]] bool yes_no(const char* name, bool otherwise);
  /// A name that must be a key of `known`; absent is an empty name unless required.
  template <class Map>
  [[nodiscard]] std::string name_in(const char* name, const Map& known, const char* kind, bool required = true) {
    std::vector<std::string_view> names;
    for (const auto& entry : known) names.push_back(entry.first);
    return known_name(name, names, kind, required);
  }
  template <class T>
  [[nodiscard]] T choice(const char* name, Choices<T> choices, T otherwise) {
    std::vector<std::string_view> names;
    for (const auto& c : choices) names.push_back(c.first);
    const std::string word = known_name(name, names, "value", false);
    for (const auto& c : choices)
      if (c.first == word) return c.second;
    return otherwise;
  }

  /// Several names of a closed choice with spaces between; absent is none.
  template <class T>
  [[nodiscard]] std::vector<T> choices(const char* name, Choices<T> known) {
    std::vector<std::string_view> names;
    for (const auto& c : known) names.push_back(c.first);
    std::vector<T> all;
    for (const std::size_t i : known_names(name, names)) all.push_back(known[i].second);
    return all;
  }
  [[nodiscard]] bool has(const char* name) const { return giving(name) != nullptr; }
  /// Where the value of an attribute stands, or the element when there is none.
  [[nodiscard]] Span value_place(const char* name) const;

  void value_fault(const char* name, std::string what, std::string fix);
  /// For values that do not go together: at the one that the nearest file gives, for it came last.
  void value_fault(std::initializer_list<const char*> names, std::string what, std::string fix);

 private:
  [[nodiscard]] const Layer* giving(const char* name) const;
  [[nodiscard]] std::optional<std::string_view> ask(const char* name, bool required);
  [[nodiscard]] std::string known_name(const char* name, std::span<const std::string_view> known, const char* kind,
                                       bool required);
  [[nodiscard]] std::vector<std::size_t> known_names(const char* name, std::span<const std::string_view> known);
  void close();
  void check_attributes(const Layer& layer);
  void check_children(const Layer& layer);

  Layers layers_;
  std::set<std::string, std::less<>> asked_attributes_;
  std::set<std::string, std::less<>> asked_children_;
};

/// "0.75in", "10.5pt", "12mm"; digits with at most one dot, at most four digits on each side.
[[nodiscard]] std::optional<Milli> read_paper_length(std::string_view text);
/// "#1F2933"
[[nodiscard]] std::optional<Color> read_color(std::string_view text);

}  // namespace soundsill::page
