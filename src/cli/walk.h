// Finds the cases below the paths that were named, one after another, without listing them all first.
#pragma once

#include <sys/types.h>

#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "cli/disk.h"
#include "listing/review.h"

namespace soundsill::cli {

/// A path that is a file is a case; of a folder, every `case.yaml` in it and below it is one. In the order of names;
/// links to folders are not followed, so that no walk runs in circles, and a case that is named twice is met once.
class Walk {
 public:
  explicit Walk(std::vector<std::string> paths);
  /// The next case file, or nothing at the end.
  [[nodiscard]] std::optional<std::string> next();
  /// What was named and is not there, and folders that could not be looked into. Cases may be missing because of them.
  [[nodiscard]] const std::vector<listing::NotRead>& not_read() const { return not_read_; }

 private:
  struct Folder {
    std::string path;
    std::vector<std::string> names;  ///< of the folders in it, in order from the back
  };
  void enter(const std::string& folder);
  void take(const std::string& path);
  [[nodiscard]] bool met_before(const std::string& path);

  std::vector<std::string> paths_;  ///< from the back
  bool alone_;                      ///< with one path named nothing can be met twice
  std::vector<Folder> open_;
  std::vector<std::string> found_;                       ///< cases to hand out next, from the back
  std::set<std::tuple<dev_t, ino_t, std::string>> met_;  ///< folder and name of each case
  std::vector<listing::NotRead> not_read_;
};

/// The order in which a walk meets files: folder by folder, a folder before those below it.
[[nodiscard]] bool file_before(std::string_view a, std::string_view b);
/// Adds the names in a list, one a line (or with a null byte behind each, as `find -print0` writes them); `-` is
/// standard input. Gives what went wrong, or an empty text.
[[nodiscard]] std::string read_names(const std::string& list, std::vector<std::string>& names);

}  // namespace soundsill::cli
