#include "cli/assets.h"

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

}  // namespace soundsill::cli
