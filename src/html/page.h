// Shared by the files that write the page. Not for others.
#pragma once

#include <set>
#include <string>
#include <string_view>

#include "document/document.h"
#include "html/html.h"
#include "source/markup.h"

namespace soundsill::html {

[[nodiscard]] inline std::string attribute(std::string_view name, std::string_view value) {
  return " " + std::string(name) + "=\"" + escaped(value) + "\"";
}
[[nodiscard]] inline std::string id_of(std::string_view id) {
  return id.empty() ? std::string() : attribute("id", anchor(id));
}
/// A name of the document as a class.
[[nodiscard]] inline std::string class_of(std::string_view name) { return attribute("class", anchor(name)); }

/// What every block needs: the document, what can be led to, and the level of the last heading.
struct Writer {
  const document::Document& document;
  const Options& options;
  PhotoTroubles& troubles;
  std::set<std::string, std::less<>> ids;
  std::string out{};
  int level = 0;

  [[nodiscard]] std::string runs(const document::Runs& runs) const;
  void blocks(const std::vector<document::Block>& all);
  /// A heading level that never skips one.
  [[nodiscard]] int next_level(int wanted);
  void heading(const document::Heading& heading);

  void operator()(const document::Heading& heading);
  void operator()(const document::Paragraph& paragraph);
  void operator()(const document::List& list);
  void operator()(const document::Table& table);
  void operator()(const document::Facts& facts);
  void operator()(const document::Photos& photos);
  void operator()(const document::Drawing& drawing);
  void operator()(const document::Signatures& signatures);
  void operator()(const document::Card& card);
  void operator()(const document::Figures& figures);
  void operator()(const document::Bars& bars);

 private:
  void head(const document::Table& table);
  void row(const document::Table& table, const document::Row& row);
  void photo(const document::Photo& photo);
};

}  // namespace soundsill::html
