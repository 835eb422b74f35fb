// The one door to stored bytes. The command line opens it on the disk, tests in memory.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace soundsill {

/// What reading a file gave: its bytes, or in words why not.
struct FileRead {
  std::optional<std::string> bytes;
  std::string trouble;     ///< "there is no such file", "it is a folder", ...; empty when bytes are there
  bool absent = false;     ///< nothing stands there; else the trouble is with what does
  bool too_large = false;  ///< more than the limit
};

class Files {
 public:
  virtual ~Files() = default;

  /// Reads a whole regular file of at most `limit` bytes.
  [[nodiscard]] virtual FileRead read(const std::string& path, std::size_t limit) const = 0;
  /// Reads a file that a person's file names: relative, and inside `folder` even after links are followed. Only the
  /// first `start` bytes when it has more.
  [[nodiscard]] virtual FileRead read_inside(const std::string& folder, const std::string& relative, std::size_t limit,
                                             std::size_t start) const = 0;
  /// Whether anything stands there, readable or not.
  [[nodiscard]] virtual bool exists(const std::string& path) const = 0;
  /// Names (not paths) in a folder, sorted; empty when there is no such folder.
  [[nodiscard]] virtual std::vector<std::string> list(const std::string& folder) const = 0;
};

/// Folder part of a path, "." when there is none.
[[nodiscard]] std::string folder_of(std::string_view path);
/// Joins a folder and a name; "." as a folder is left out.
[[nodiscard]] std::string join_path(std::string_view folder, std::string_view name);

}  // namespace soundsill
