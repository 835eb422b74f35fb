// Finds the cases below the paths that were named, one after another, without listing them all first.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/disk.h"

namespace soundsill::cli {

/// A path that is a file is a case; of a folder, every `case.yaml` in it and below it is one. In the order of names;
/// links to folders are not followed, so that no walk runs in circles.
class Walk {
 public:
  explicit Walk(std::vector<std::string> paths);
  /// The next case file, or nothing at the end.
  [[nodiscard]] std::optional<std::string> next();
  /// Paths that were named and are neither file nor folder.
  [[nodiscard]] const std::vector<std::string>& missing() const { return missing_; }

 private:
  struct Folder {
    std::string path;
    std::vector<std::string> names;  ///< of the folders in it, in order from the back
  };
  void enter(const std::string& folder);

  std::vector<std::string> paths_;  ///< from the back
  std::vector<Folder> open_;
  std::vector<std::string> found_;  ///< the case of the folder just entered
  std::vector<std::string> missing_;
};

}  // namespace soundsill::cli
