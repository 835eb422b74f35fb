// The disk: reading through Files, and writing whole or not at all.
#pragma once

#include <string>
#include <string_view>

#include "cli/temporary.h"
#include "source/files.h"

namespace soundsill::cli {

class DiskFiles : public Files {
 public:
  [[nodiscard]] FileRead read(const std::string& path, std::size_t limit) const override;
  [[nodiscard]] FileRead read_inside(const std::string& folder, const std::string& relative, std::size_t limit,
                                     std::size_t start) const override;
  [[nodiscard]] bool exists(const std::string& path) const override;
  [[nodiscard]] std::vector<std::string> list(const std::string& folder) const override;
};

[[nodiscard]] bool is_folder(const std::string& path);

/// Writes under a temporary name in the same folder, flushes it to the disk and renames it. The old file stands until
/// the new one is whole, and stays when `refusal` says so; leftovers of
/// a killed run are taken away first.
[[nodiscard]] Placed write_whole(const std::string& path, std::string_view bytes, const Refusal& refusal);

}  // namespace soundsill::cli
