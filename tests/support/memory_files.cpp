#include "support/memory_files.h"

namespace soundsill {

FileRead MemoryFiles::read(const std::string& path, std::size_t limit) const {
  const auto found = files.find(path);
  if (found == files.end()) return {std::nullopt, "there is no such file", true};
  if (found->second.size() > limit)
    return {std::nullopt, "it is larger than " + std::to_string(limit) + " bytes", false, true};
  return {found->second, {}};
}

FileRead MemoryFiles::read_inside(const std::string& folder, const std::string& relative, std::size_t limit,
                                  std::size_t start) const {
  if (relative.empty() || relative.front() == '/' || relative.find("..") != std::string::npos)
    return {std::nullopt, "it lies outside the folder of the file that names it"};
  FileRead whole = read(join_path(folder, relative), limit);
  if (whole.bytes && whole.bytes->size() > start) whole.bytes->resize(start);
  return whole;
}

std::vector<std::string> MemoryFiles::list(const std::string& folder) const {
  std::vector<std::string> names;
  const std::string prefix = folder == "." ? "" : folder + "/";
  for (const auto& [path, bytes] : files)
    if (path.starts_with(prefix) && path.find('/', prefix.size()) == std::string::npos)
      names.push_back(path.substr(prefix.size()));
  return names;
}

}  // namespace soundsill
