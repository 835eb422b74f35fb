// The yardstick of reading: plain YAML::Load of every case under a folder, and nothing made of it.
#include <yaml-cpp/yaml.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

int main(int argc, char** argv) {
  if (argc < 2) {
    std::fputs("usage: bench_parse FOLDER\n", stderr);
    return 2;
  }
  std::size_t read = 0;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(argv[1])) {
    if (entry.path().filename() != "case.yaml") continue;
    std::ifstream in(entry.path(), std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    if (YAML::Load(text).IsMap()) ++read;
  }
  std::printf("%zu\n", read);
  return 0;
}
