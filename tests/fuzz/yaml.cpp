// The YAML tree: every node lies in its text, and a tree that is refused is refused in words.
#include "fuzz/fuzz.h"
#include "fuzz/yaml_mutator.h"
#include "yaml/tree.h"

using namespace soundsill;
using fuzzing::must;

namespace {

void walk(const yaml::Node& node, std::size_t size, int depth) {
  must(node.span.begin <= node.span.end && node.span.end <= size, "a value lies in its text");
  must(depth < 1000, "a tree is not deeper than people write");
  for (const yaml::Node& item : node.items) walk(item, size, depth + 1);
  for (const yaml::Entry& entry : node.entries) {
    must(entry.key_span.begin <= entry.key_span.end && entry.key_span.end <= size, "a key lies in its text");
    must(node.find(entry.key) != nullptr, "a key is found");
    walk(entry.value, size, depth + 1);
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzzing::read_text(fuzzing::text_of(data, size), [](const Source& source, Faults& faults) {
    auto tree = yaml::read(source, faults);
    if (tree) walk(*tree, source.text().size(), 0);
    return tree;
  });
  return 0;
}
