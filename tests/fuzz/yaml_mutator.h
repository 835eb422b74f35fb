// Lets libFuzzer change a YAML text as people do: by lines and values, half of the time; bytes the other half.
#pragma once

#ifdef SOUNDSILL_LIBFUZZER
#include <algorithm>
#include <cstdint>
#include <cstring>
#include <random>
#include <string>
#include <string_view>
#include <vector>

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t max_size);

namespace soundsill::fuzzing {

/// What may stand behind a key: too small, too large, of another kind, in another script.
inline constexpr std::string_view other_values[] = {"0",
                                                    "1",
                                                    "2",
                                                    "999",
                                                    "1000000",
                                                    "999999999",
                                                    "0.06",
                                                    "100",
                                                    "0\"",
                                                    "1/16\"",
                                                    "1'",
                                                    "12'6 1/2\"",
                                                    "-3'",
                                                    "40'",
                                                    "9999'11 15/16\"",
                                                    "999999'",
                                                    "$0.00",
                                                    "$0.01",
                                                    "$99999999.99",
                                                    "2026-03-05",
                                                    "1900-01-01",
                                                    "9999-12-31",
                                                    "\"0:00\"",
                                                    "\"23:59\"",
                                                    "yes",
                                                    "no",
                                                    "none",
                                                    "not known",
                                                    "[]",
                                                    "{}",
                                                    "~",
                                                    "[1, 2, 3]",
                                                    "{a: b}",
                                                    "wall 1 at 1'",
                                                    "wall 99",
                                                    "[[0,0],[40',0],[40',30'],[0,30']]",
                                                    "[[0,0],[1',1'],[0,1'],[1',0]]",
                                                    "\"\xd7\xa9\xd7\x9c\xd7\x95\xd7\x9d\"",
                                                    "\"\xf0\x9f\x90\x9c\"",
                                                    "\"a\\u0301\\u200d\\u202e\"",
                                                    "a very long word without any place to break it anywhere at all",
                                                    "|\n    text\n",
                                                    "&a",
                                                    "*a"};

inline std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size() - 1);
    lines.emplace_back(text.substr(at, end + 1 - at));
    at = end + 1;
  }
  return lines;
}

/// Another value behind the colon or the dash of a line.
inline void change_value(std::string& line, std::uint64_t number) {
  std::size_t at = line.find(": ");
  if (at == std::string::npos) at = line.find("- ");
  if (at == std::string::npos) return;
  const std::size_t end = line.find_first_of(",}\n", at);
  line.replace(at + 2, (end == std::string::npos ? line.size() : end) - at - 2,
               other_values[number % std::size(other_values)]);
}

inline std::string changed_lines(std::string_view text, std::minstd_rand& random) {
  std::vector<std::string> lines = lines_of(text);
  for (std::size_t changes = 1 + random() % 3; changes > 0 && !lines.empty(); --changes) {
    const std::size_t one = random() % lines.size(), other = random() % lines.size();
    const auto at = [&](std::size_t i) { return lines.begin() + static_cast<std::ptrdiff_t>(i); };
    switch (random() % 6) {
      case 0:
        lines.erase(at(one));
        break;
      case 1: {
        const std::string copy = lines[one];
        lines.insert(at(other), copy);
        break;
      }
      case 2:
        std::swap(lines[one], lines[other]);
        break;
      default:
        change_value(lines[one], random());
    }
  }
  std::string out;
  for (const std::string& line : lines) out += line;
  return out;
}

}  // namespace soundsill::fuzzing

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t max_size,
                                               unsigned seed) {
  std::minstd_rand random(seed);
  if (size == 0 || random() % 2 == 0) return LLVMFuzzerMutate(data, size, max_size);
  const std::string text(reinterpret_cast<const char*>(data), size);  // NOLINT: bytes are what fuzzers deal in
  const std::string now = soundsill::fuzzing::changed_lines(text, random);
  if (now.empty() || now.size() > max_size) return LLVMFuzzerMutate(data, size, max_size);
  std::memcpy(data, now.data(), now.size());
  return now.size();
}
#endif
