// Forms, templates and fonts inside the program.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace soundsill::cli {

struct Asset {
  std::string_view name;  ///< "forms/us-nc.yaml", "templates/packet.xml", "fonts/Lato-Regular.ttf"
  std::string_view bytes;
};
[[nodiscard]] std::optional<std::string_view> asset(std::string_view name);
[[nodiscard]] std::vector<Asset> assets(std::string_view folder);

/// Tells the system that of these bytes only some will be read, here and there, so that it does not bring what lies
/// beside.
void read_here_and_there(std::string_view asset);

}  // namespace soundsill::cli
