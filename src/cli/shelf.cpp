#include "cli/shelf.h"

#include <filesystem>

#include "cli/assets.h"

namespace soundsill::cli {

std::optional<DataFile> data_file(const std::string& folder_option, std::string_view folder, const std::string& name,
                                  const Files& files) {
  if (!folder_option.empty()) {
    const std::string path = join_path(folder_option, name);
    if (FileRead read = files.read(path, text_limit); read.bytes) return DataFile{path, std::move(*read.bytes)};
  }
  const std::string inside = std::string(folder) + "/" + name;
  if (const auto bytes = asset(inside))
    return DataFile{"built-in " + inside, std::string(*bytes), asset("trees/" + name).value_or("")};
  return std::nullopt;
}

std::shared_ptr<const Shelved<Company>> Shelf::company(const std::string& path) {
  const std::lock_guard lock(mutex_);
  auto& place = companies_[path];
  if (place) return place;
  auto made = std::make_shared<Shelved<Company>>();
  made->path = path;
  FileRead read = files_.read(path, text_limit);
  made->trouble = read.trouble;
  if (read.bytes) made->value = read_company(made->sources.add(path, std::move(*read.bytes)), made->faults);
  return place = std::move(made);
}

std::optional<std::string> Shelf::company_path(const std::string& folder) {
  const std::lock_guard lock(mutex_);
  std::error_code failed;
  std::filesystem::path at = std::filesystem::absolute(folder, failed);
  std::string shown = folder == "." ? "" : folder + "/";
  // Folders of one archive share the search from their parent on.
  for (int up = 0; up < 64; ++up) {
    const std::string path = shown + "company.yaml";
    auto known = company_paths_.find(path);
    if (known == company_paths_.end())
      known = company_paths_.emplace(path, files_.exists(path) ? std::optional(path) : std::nullopt).first;
    // "a/b/../../company.yaml" reads badly in a message.
    if (known->second) return std::filesystem::path(path).lexically_normal().string();
    if (up == 0) company_paths_.erase(known);  // the case's own folder is asked once only
    if (at == at.root_path() || at.empty()) break;
    at = at.parent_path();
    shown += "../";
    shown = std::filesystem::path(shown).lexically_normal().string();
    if (shown == "./") shown.clear();
  }
  return std::nullopt;
}

std::shared_ptr<const Shelved<Form>> Shelf::form(const std::string& id, const std::string& loan,
                                                 const std::string& option, const Form& general) {
  const std::lock_guard lock(mutex_);
  const std::string key = id + "\n" + loan + "\n" + option;
  if (const auto known = forms_.find(key); known != forms_.end()) return known->second;
  auto file = data_file(option, "forms", id + ".yaml", files_);
  if (!file) return nullptr;
  auto made = std::make_shared<Shelved<Form>>();
  made->path = file->name;
  made->value = read_form(made->sources.add(file->name, std::move(file->bytes), file->tree), made->faults);
  if (made->value) {
    fill_from(*made->value, general, made->faults);
    // A loan has rules of its own where a form for it is installed.
    auto over = loan.empty() ? std::nullopt : data_file(option, "forms", "loan-" + loan + ".yaml", files_);
    if (over)
      if (const auto overlay =
              read_form(made->sources.add(over->name, std::move(over->bytes), over->tree), made->faults))
        tighten(*made->value, *overlay);
  }
  return forms_.emplace(key, std::move(made)).first->second;
}

}  // namespace soundsill::cli
