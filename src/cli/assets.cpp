#include "cli/assets.h"

#include <sys/mman.h>
#include <unistd.h>

#include <cstdint>

#include "asset_table.inc"  // made by CMake: `extern` symbols and the array `table`

namespace soundsill::cli {

std::optional<std::string_view> asset(std::string_view name) {
  for (const auto& row : table)
    if (name == row.name) return std::string_view(row.begin, static_cast<std::size_t>(row.end - row.begin));
  return std::nullopt;
}

std::vector<Asset> assets(std::string_view folder) {
  std::vector<Asset> out;
  for (const auto& row : table) {
    const std::string_view name(row.name);
    if (name.starts_with(folder) && name.substr(folder.size()).starts_with('/'))
      out.push_back({name, std::string_view(row.begin, static_cast<std::size_t>(row.end - row.begin))});
  }
  return out;
}

void read_here_and_there(std::string_view asset) {
  const auto page = static_cast<std::uintptr_t>(::sysconf(_SC_PAGESIZE));
  const auto begin = (reinterpret_cast<std::uintptr_t>(asset.data()) + page - 1) / page * page;
  const auto end = reinterpret_cast<std::uintptr_t>(asset.data() + asset.size()) / page * page;
  // Only advice: where it is not taken, nothing else changes.
  if (begin < end) (void)::madvise(reinterpret_cast<void*>(begin), end - begin, MADV_RANDOM);  // NOLINT
}

}  // namespace soundsill::cli
