// Files that serve many cases, read once: companies, and forms with their loan's limits laid over them.
#pragma once

#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>

#include "cli/disk.h"
#include "company/company.h"
#include "jurisdiction/form.h"

namespace soundsill::cli {

/// What a file says, its text and its faults; `unreadable` when it, or one laid over it, could not be read at all.
template <class T>
struct Shelved {
  Sources sources;
  Faults faults;
  std::optional<T> value;
  std::string path;
  bool unreadable = false;
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
  std::map<std::string, bool> company_paths_;  ///< whether there is one
  std::map<std::string, std::shared_ptr<const Shelved<Form>>> forms_;
};

/// A data file: its name says where it came from. One from inside the program brings its tree.
struct DataFile {
  std::string name;
  FileRead read;
  std::string_view tree = {};
};
/// From the folder that was named, or, where it is absent there, from inside the program. A file of the person's own
/// that cannot be read is never passed over in silence.
[[nodiscard]] DataFile data_file(const std::string& folder_option, std::string_view folder, const std::string& name,
                                 const Files& files);
/// A form as its file says; its text and faults stay with the shelved one. Nothing when it cannot be read.
[[nodiscard]] std::optional<Form> shelve_form(Shelved<Form>& shelved, DataFile file);
/// Says that a file could not be read.
void not_read(Faults& faults, const std::string& path, const FileRead& read);

}  // namespace soundsill::cli
