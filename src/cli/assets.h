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

}  // namespace soundsill::cli
