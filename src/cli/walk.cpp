#include "cli/walk.h"

#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

#include "source/most.h"

namespace soundsill::cli {
namespace fs = std::filesystem;

Walk::Walk(std::vector<std::string> paths) : paths_(std::move(paths)), alone_(paths_.size() == 1) {
  std::reverse(paths_.begin(), paths_.end());
}

void Walk::enter(const std::string& folder) {
  Folder made{folder, {}};
  std::error_code failed;
  auto it = fs::directory_iterator(folder, failed);
  for (; !failed && it != fs::directory_iterator(); it.increment(failed)) {
    std::error_code unknown;
    const std::string name = it->path().filename().string();
    if (name == "case.yaml" && !it->is_directory(unknown))
      found_.push_back(join_path(folder, name));
    else if (!name.starts_with('.') && it->is_directory(unknown) && !it->is_symlink(unknown))
      made.names.push_back(name);
  }
  if (failed) not_read_.push_back({folder, failed.message()});
  std::sort(made.names.begin(), made.names.end(), std::greater<>());
  open_.push_back(std::move(made));
}

/// A path as it was named.
void Walk::take(const std::string& path) {
  std::error_code failed;
  const fs::file_status there = fs::status(path, failed);
  if (fs::is_directory(there))
    enter(path);
  else if (fs::exists(there) || fs::is_symlink(path, failed))  // a link that leads nowhere is a case nobody can read
    found_.push_back(path);
  else
    not_read_.push_back(
        {path, failed && !fs::status_known(there) ? failed.message() : "there is no such file or folder"});
}

/// Names differ ("a", "a/", "./a/case.yaml"), the folder on the disk does not.
bool Walk::met_before(const std::string& path) {
  struct stat folder {};
  if (alone_ || ::stat(folder_of(path).c_str(), &folder) != 0) return false;
  return !met_.emplace(folder.st_dev, folder.st_ino, fs::path(path).filename().string()).second;
}

std::optional<std::string> Walk::next() {
  for (;;) {
    if (!found_.empty()) {
      std::string path = std::move(found_.back());
      found_.pop_back();
      if (met_before(path)) continue;
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
    take(path);
  }
}

bool file_before(std::string_view a, std::string_view b) {
  const auto folder = [](std::string_view path) { return path.substr(0, path.rfind('/') + 1); };  // npos + 1 is 0
  const auto rank = [](char c) { return c == '/' ? 0 : 1 + static_cast<unsigned char>(c); };
  const auto before = [&](char x, char y) { return rank(x) < rank(y); };
  const std::string_view of_a = folder(a), of_b = folder(b);
  if (of_a == of_b) return a < b;
  return std::lexicographical_compare(of_a.begin(), of_a.end(), of_b.begin(), of_b.end(), before);
}

std::string read_names(const std::string& list, std::vector<std::string>& names) {
  std::FILE* const file = list == "-" ? stdin : std::fopen(list.c_str(), "re");
  if (!file) return std::strerror(errno);
  std::string text;
  char piece[65536];
  // A pipe tells no size before, and may never end.
  for (std::size_t got = 0; text.size() <= most::list_bytes && (got = std::fread(piece, 1, sizeof piece, file)) > 0;)
    text.append(piece, got);
  const bool whole = std::ferror(file) == 0;
  if (file != stdin) std::fclose(file);
  if (!whole) return "it cannot be read to its end";
  if (text.size() > most::list_bytes)
    return "it is larger than " + std::to_string(most::list_bytes / 1'000'000) + " MB";
  const char end = text.find('\0') == std::string::npos ? '\n' : '\0';
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t stop = std::min(text.find(end, at), text.size());
    if (stop > at) names.push_back(text.substr(at, stop - at));
    at = stop + 1;
  }
  return {};
}

}  // namespace soundsill::cli
