// What the fuzz targets share. A target is one file with LLVMFuzzerTestOneInput; libFuzzer feeds it, or runner.cpp
// does.
#pragma once

#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>

#include "diagnostics/diagnostics.h"
#include "source/source.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace soundsill::fuzzing {

/// What must hold for any input; ends the process where it does not, so that the input is kept.
inline void must(bool holds, std::string_view what) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %.*s\n", static_cast<int>(what.size()), what.data());
  std::abort();
}

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};  // NOLINT: bytes are what fuzzers deal in
}

/// A number that depends on every byte (FNV-1a): which of several ways an input goes. It goes the same way each time.
inline std::uint64_t number_of(std::string_view bytes) {
  std::uint64_t hash = 14695981039346656037U;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211U;
  return hash ^ hash >> 29U;
}

/// A file of the repository, by its path from there.
inline std::string file_text(const std::string& path) {
  std::ifstream in(std::string(SOUNDSILL_ROOT) + "/" + path, std::ios::binary);
  must(static_cast<bool>(in), "cannot read " + path);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// Each fault has words and a code, and what place it has lies inside its text.
inline void must_be_whole(const Faults& faults) {
  for (const Diagnostic& d : faults.all()) {
    must(!info(d.rule).code.empty() && !d.what.empty() && !d.why.empty() && !d.fix.empty(),
         "a fault says all it has to");
    if (d.at) must(d.at.begin <= d.at.end && d.at.end <= d.at.source->text().size(), "a fault lies inside its text");
  }
}

/// Faults as a terminal shows them, which they never drive.
inline std::string told(const Faults& faults) {
  std::string out;
  for (const Diagnostic& d : faults.all()) out += render(d) + "\n";
  for (const char c : out)
    must(static_cast<unsigned char>(c) >= 0x20 || c == '\n', "no control character reaches the terminal");
  return out;
}

/// One reading of a text: what is refused is refused in words, at a place. Now and then it is read twice, and both
/// readings tell the same.
template <class Read>
void read_text(std::string_view text, Read read) {
  const auto once = [&](bool aloud) {
    const Source source("input", std::string(text));
    Faults faults;
    const auto value = read(source, faults);
    must(value.has_value() || faults.errors() > 0, "what is refused is refused in words");
    for (const Diagnostic& d : faults.all()) must(static_cast<bool>(d.at), "a fault of a file has its place");
    must_be_whole(faults);
    if (!aloud) return std::string();
    faults.sort();
    return told(faults);
  };
  if (number_of(text) % 32 != 0) return void(once(false));
  const std::string first = once(true);
  must(once(true) == first, "reading again tells the same");
}

}  // namespace soundsill::fuzzing
