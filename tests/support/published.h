// Rows of published checks: CSV files that a person of the trade can read, one check a row with its source.
#pragma once

#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "units/units.h"

namespace soundsill::testing {

struct PublishedRow {
  std::string id, topic, source;
  std::map<std::string, std::string> inputs;
  Ratio expected;
  Ratio tolerance;  ///< absolute
};

inline std::vector<std::string> csv_cells(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (line[i] == '"' && quoted && i + 1 < line.size() && line[i + 1] == '"')
      cells.back() += line[i++];
    else if (line[i] == '"')
      quoted = !quoted;
    else if (line[i] == ',' && !quoted)
      cells.emplace_back();
    else
      cells.back() += line[i];
  }
  return cells;
}

/// "2/3", "0.06", "4 gal/10 ft/ft", "$8.00/ft" -> the number it begins with.
inline Ratio leading_number(std::string text) {
  if (!text.empty() && text.front() == '$') text.erase(0, 1);
  const auto end = text.find_first_not_of("0123456789.");
  const auto number = read_number(text.substr(0, end));
  if (!number) throw std::runtime_error("no number in `" + text + "`");
  if (end != std::string::npos && text[end] == '/' && end + 1 < text.size() && text[end + 1] >= '0' &&
      text[end + 1] <= '9' && text.find(' ') == std::string::npos)
    return *number / leading_number(text.substr(end + 1));
  return *number;
}

inline std::vector<PublishedRow> published_rows(const std::string& path) {
  std::ifstream in(std::string(SOUNDSILL_ROOT) + "/" + path);
  if (!in) throw std::runtime_error("cannot read " + path);
  std::vector<PublishedRow> rows;
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    const auto cells = csv_cells(line);
    PublishedRow row{cells.at(0), cells.at(1), cells.at(6), {}, leading_number(cells.at(3)), {}};
    const std::string& tolerance = cells.at(5);
    row.tolerance = leading_number(tolerance);
    if (tolerance.find('%') != std::string::npos) row.tolerance = row.expected * row.tolerance / 100;
    std::string inputs = cells.at(2) + ";";
    for (std::size_t at = 0, end; (end = inputs.find(';', at)) != std::string::npos; at = end + 1) {
      const std::string one = inputs.substr(at, end - at);
      if (const auto equals = one.find('='); equals != std::string::npos)
        row.inputs[one.substr(one.find_first_not_of(' '), equals - one.find_first_not_of(' '))] =
            one.substr(equals + 1);
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace soundsill::testing
