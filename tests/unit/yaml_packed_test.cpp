#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "yaml/packed.h"

using namespace soundsill;
using namespace soundsill::yaml;

namespace {

std::string text_of(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// Where two trees differ; empty when they are the same, places included.
std::string difference(const Node& a, const Node& b) {
  if (a.kind != b.kind || a.span != b.span || a.text != b.text || a.quoted != b.quoted ||
      a.items.size() != b.items.size() || a.entries.size() != b.entries.size())
    return "at byte " + std::to_string(a.span.begin);
  for (std::size_t i = 0; i < a.items.size(); ++i)
    if (auto d = difference(a.items[i], b.items[i]); !d.empty()) return d;
  for (std::size_t i = 0; i < a.entries.size(); ++i) {
    if (a.entries[i].key != b.entries[i].key || a.entries[i].key_span != b.entries[i].key_span)
      return "key " + a.entries[i].key;
    if (auto d = difference(a.entries[i].value, b.entries[i].value); !d.empty()) return d;
  }
  return {};
}

const char* const sample = "a: 1\n'b b': [x, 'y: z', {}]\nc:\n  - d: |\n      words\n      more\n  -\nlong: \"½ ’\"\n";

}  // namespace

TEST_CASE("a packed tree is the tree that was read, places included") {
  std::vector<std::string> texts{sample, "[]\n", "just words\n"};
  for (const char* folder : {"/forms", "/templates", "/examples", "/examples/heron-lane"})
    for (const auto& entry : std::filesystem::directory_iterator(std::string(SOUNDSILL_ROOT) + folder))
      if (entry.path().extension() == ".yaml") texts.push_back(text_of(entry.path()));
  REQUIRE(texts.size() > 15);
  for (const std::string& text : texts) {
    const Source source("f.yaml", text);
    Faults faults;
    const auto tree = read(source, faults);
    REQUIRE(tree);
    const std::string packed = pack(*tree);
    CHECK(difference(*tree, unpack(packed, source)).empty());
    const Source known("f.yaml", text, packed);  // the reader takes it
    const auto taken = read(known, faults);
    REQUIRE(taken);
    CHECK(taken->span.source == &known);
    CHECK(pack(*taken) == packed);
  }
}

TEST_CASE("bytes that are no tree of the text are refused") {
  const Source source("f.yaml", sample);
  Faults faults;
  const std::string packed = pack(*read(source, faults));
  for (std::size_t size = 0; size < packed.size(); ++size)
    CHECK_THROWS_AS(unpack(packed.substr(0, size), source), std::invalid_argument);
  CHECK_THROWS_AS(unpack(packed + "\x01", source), std::invalid_argument);
  CHECK_THROWS_AS(unpack(packed, Source("shorter.yaml", "a: 1\n")), std::invalid_argument);
}
