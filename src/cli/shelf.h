// Files that serve many cases, read once: companies, and forms with their loan's limits laid over them.
#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>

#include "cli/disk.h"
#include "company/company.h"
#include "form/form.h"

namespace soundsill::cli {

/// What a file says, its text and its faults; `trouble` when it could not be read at all.
template <class T>
struct Shelved {
  Sources sources;
  Faults faults;
  std::optional<T> value;
  std::string path, trouble;
};

/// Safe to use from several threads. What was taken from it stays while somebody holds it.
class Shelf {
 public:
  explicit Shelf(const Files& files) : files_(files) {}

  /// The company's file at a path.
  [[nodiscard]] std::shared_ptr<const Shelved<Company>> company(const std::string& path);
  /// company.yaml in a folder or in one above it; nothing when there is none.
  [[nodiscard]] std::optional<std::string> company_path(const std::string& folder);
  /// A form as a case needs it: filled from the general one, tightened by the loan's. `option` is a folder that comes
  /// before the built-in forms, or empty. Nothing when there is no such form.
  [[nodiscard]] std::shared_ptr<const Shelved<Form>> form(const std::string& id, const std::string& loan,
                                                          const std::string& option, const Form& general);

 private:
  const Files& files_;
  std::mutex mutex_;
  std::map<std::string, std::shared_ptr<const Shelved<Company>>> companies_;
  std::map<std::string, std::optional<std::string>> company_paths_;
  std::map<std::string, std::shared_ptr<const Shelved<Form>>> forms_;
};

/// Text files are no larger than this.
inline constexpr std::size_t text_limit = 4'000'000;

/// A data file: its name says where it came from. One from inside the program brings its tree.
struct DataFile {
  std::string name, bytes;
  std::string_view tree = {};
};
/// From the folder that was named, or from inside the program.
[[nodiscard]] std::optional<DataFile> data_file(const std::string& folder_option, std::string_view folder,
                                                const std::string& name, const Files& files);

}  // namespace soundsill::cli
