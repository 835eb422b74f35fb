// Files kept in memory, for tests and for data inside the program.
#pragma once

#include <map>

#include "source/files.h"

namespace soundsill {

class MemoryFiles : public Files {
 public:
  std::map<std::string, std::string> files;

  [[nodiscard]] FileRead read(const std::string& path, std::size_t limit) const override;
  [[nodiscard]] FileRead read_inside(const std::string& folder, const std::string& relative, std::size_t limit,
                                     std::size_t start) const override;
  [[nodiscard]] bool exists(const std::string& path) const override { return files.count(path) != 0; }
  [[nodiscard]] std::vector<std::string> list(const std::string& folder) const override;
};

}  // namespace soundsill
