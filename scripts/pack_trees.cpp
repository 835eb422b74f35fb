// Runs while the program is built: reads a YAML file that goes into it and writes its tree (yaml/packed.h).
#include <cstdio>
#include <fstream>
#include <iterator>
#include <string>

#include "diagnostics/diagnostics.h"
#include "yaml/packed.h"

int main(int argc, char** argv) {
  using namespace soundsill;
  if (argc != 3) {
    std::fputs("usage: pack_trees FILE.yaml FILE.tree\n", stderr);
    return 2;
  }
  std::ifstream in(argv[1], std::ios::binary);
  Sources sources;
  Faults faults;
  const Source& source = sources.add(argv[1], {std::istreambuf_iterator<char>(in), {}});
  const auto tree = in ? yaml::read(source, faults) : std::nullopt;
  for (const Diagnostic& d : faults.all()) std::fputs((render(d, {}) + "\n").c_str(), stderr);
  // A file with as much as a warning is not fit to be shipped.
  if (!tree || !faults.all().empty()) return 1;
  std::ofstream out(argv[2], std::ios::binary);
  out << yaml::pack(*tree);
  return out.flush() ? 0 : 1;
}
