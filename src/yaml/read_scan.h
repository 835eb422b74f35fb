// A first look at a YAML text, before the parser: finds what the parser would let pass or misreport.
//
// The scan knows as much YAML as a case file needs: indentation, quotes, brackets, comments, | and > text. What it
// reports it also blots out in a copy of the text, byte for byte, so that the parser can go on behind it and all faults
// of a file come out in one run, at their true places.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "yaml/read_report.h"

namespace soundsill::yaml {

/// Where a scalar (or a flow collection) stands as written.
struct Piece {
  std::uint32_t begin = 0, end = 0;
  bool key = false;
  bool spoiled = false;  ///< a fault was reported: it has no value
  bool hushed = false;   ///< a key whose missing value was reported already
};

struct Scan {
  std::string text;                   ///< the copy for the parser, as long as the original
  std::vector<Piece> pieces;          ///< scalars, by place
  std::vector<Piece> brackets;        ///< flow collections, by place
  std::vector<std::uint32_t> dashes;  ///< of block lists, by place
  bool parse = true;                  ///< the parser can find out more
  bool trusted = true;                ///< what the parser gives is what the person wrote, less the spoiled pieces
};

[[nodiscard]] Scan scan(std::string_view text, Report& report);

}  // namespace soundsill::yaml
