#include "cli/walk.h"

#include <algorithm>
#include <filesystem>

namespace soundsill::cli {
namespace fs = std::filesystem;

Walk::Walk(std::vector<std::string> paths) : paths_(std::move(paths)) { std::reverse(paths_.begin(), paths_.end()); }

void Walk::enter(const std::string& folder) {
  Folder made{folder, {}};
  std::error_code failed;
  for (auto it = fs::directory_iterator(folder, fs::directory_options::skip_permission_denied, failed);
       !failed && it != fs::directory_iterator(); it.increment(failed)) {
    std::error_code unknown;
    const std::string name = it->path().filename().string();
    if (name == "case.yaml" && !it->is_directory(unknown))
      found_.push_back(join_path(folder, name));
    else if (!name.starts_with('.') && it->is_directory(unknown) && !it->is_symlink(unknown))
      made.names.push_back(name);
  }
  std::sort(made.names.begin(), made.names.end(), std::greater<>());
  open_.push_back(std::move(made));
}

std::optional<std::string> Walk::next() {
  for (;;) {
    if (!found_.empty()) {
      std::string path = std::move(found_.back());
      found_.pop_back();
      return path;
    }
    if (!open_.empty()) {
      Folder& top = open_.back();
      if (top.names.empty()) {
        open_.pop_back();
        continue;
      }
      const std::string below = join_path(top.path, top.names.back());
      top.names.pop_back();
      enter(below);
      continue;
    }
    if (paths_.empty()) return std::nullopt;
    const std::string path = std::move(paths_.back());
    paths_.pop_back();
    std::error_code failed;
    if (fs::is_directory(path, failed))
      enter(path);
    else if (fs::exists(path, failed))
      return path;
    else
      missing_.push_back(path);
  }
}

}  // namespace soundsill::cli
