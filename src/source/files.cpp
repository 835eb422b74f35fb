#include "source/files.h"

namespace soundsill {

std::string folder_of(std::string_view path) {
  const auto slash = path.find_last_of('/');
  if (slash == std::string_view::npos) return ".";
  return slash == 0 ? "/" : std::string(path.substr(0, slash));
}

std::string join_path(std::string_view folder, std::string_view name) {
  if (folder.empty() || folder == ".") return std::string(name);
  std::string joined(folder);
  if (joined.back() != '/') joined += '/';
  return joined += name;
}

}  // namespace soundsill
