// Runs a fuzz target over files and folders, as an ordinary test: `runner PATH...`. A crash ends it; so does an input
// that takes too long.
#include <algorithm>
#include <ctime>
#include <filesystem>
#include <vector>

#include "fuzz/fuzz.h"

namespace {

/// Seconds of the processor for one input; with sanitizers and without optimization, generously.
constexpr double longest = 10;

std::vector<std::filesystem::path> files_of(const std::filesystem::path& path) {
  std::vector<std::filesystem::path> all;
  if (!std::filesystem::is_directory(path)) return {path};
  for (const auto& entry : std::filesystem::recursive_directory_iterator(path))
    if (entry.is_regular_file()) all.push_back(entry.path());
  std::sort(all.begin(), all.end());
  return all;
}

void run(const std::filesystem::path& path) {
  std::printf("%s\n", path.c_str());
  std::fflush(stdout);
  std::ifstream in(path, std::ios::binary);
  soundsill::fuzzing::must(static_cast<bool>(in), "cannot read " + path.string());
  const std::string bytes{std::istreambuf_iterator<char>(in), {}};
  const std::clock_t begin = std::clock();
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());  // NOLINT
  const double took = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
  soundsill::fuzzing::must(took < longest, "it took " + std::to_string(took) + " s");
}

}  // namespace

int main(int argc, char** argv) {
  std::size_t count = 0;
  for (int i = 1; i < argc; ++i)
    for (const auto& path : files_of(argv[i])) {
      run(path);
      ++count;
    }
  soundsill::fuzzing::must(count > 0, "there is something to run");
  std::printf("%zu inputs\n", count);
  return 0;
}
