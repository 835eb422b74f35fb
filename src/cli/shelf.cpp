#include "cli/shelf.h"

#include <filesystem>

#include "cli/assets.h"
#include "source/most.h"

namespace soundsill::cli {
namespace fs = std::filesystem;

DataFile data_file(const std::string& folder_option, std::string_view folder, const std::string& name,
                   const Files& files) {
  if (!folder_option.empty()) {
    const std::string path = join_path(folder_option, name);
    if (FileRead read = files.read(path, most::text_bytes); !read.absent) return {path, std::move(read)};
  }
  const std::string inside = std::string(folder) + "/" + name;
  if (const auto bytes = asset(inside))
    return {"built-in " + inside, {std::string(*bytes), {}}, asset("trees/" + name).value_or("")};
  return {name, {std::nullopt, "there is no such file", true}, {}};
}

void not_read(Faults& faults, const std::string& path, const FileRead& read) {
  const std::string what = "`" + path + "` cannot be read: " + read.trouble;
  if (read.too_large)
    faults.add(Rule::too_large, Span{}, what, "a text of that size was pasted together by mistake",
               "keep photos as files beside it, and name them");
  else
    faults.add(
        Rule::unreadable_file, Span{}, what, "no paper can be made without it",
        read.absent ? "check the name, or put the file there" : "let this user read it, or put another in its place");
}

std::shared_ptr<const Shelved<Company>> Shelf::company(const std::string& path) {
  const std::lock_guard lock(mutex_);
  auto& place = companies_[path];
  if (place) return place;
  auto made = std::make_shared<Shelved<Company>>();
  made->path = path;
  FileRead read = files_.read(path, most::text_bytes);
  made->unreadable = !read.bytes;
  if (read.bytes)
    made->value = read_company(made->sources.add(path, std::move(*read.bytes)), made->faults);
  else
    not_read(made->faults, path, read);
  return place = std::move(made);
}

std::optional<std::string> Shelf::company_path(const std::string& folder) {
  const std::lock_guard lock(mutex_);
  constexpr int deepest = 64;
  std::error_code failed;
  fs::path at = fs::path(folder).lexically_normal();  // "a/b/../../company.yaml" reads badly in a message
  for (int up = 0; up < deepest; ++up) {
    const std::string path = (at / "company.yaml").lexically_normal().string();
    const auto known = company_paths_.find(path);
    const bool there = known != company_paths_.end() ? known->second : files_.exists(path);
    if (up > 0) company_paths_.emplace(path, there);  // archives share the search from the parent on
    if (there) return path;
    if (fs::absolute(at, failed).lexically_normal() == "/") break;
    at = (at / "..").lexically_normal();
  }
  return std::nullopt;
}

std::optional<Form> shelve_form(Shelved<Form>& shelved, DataFile file) {
  if (file.read.bytes)
    return read_form(shelved.sources.add(file.name, std::move(*file.read.bytes), file.tree), shelved.faults);
  not_read(shelved.faults, file.name, file.read);
  shelved.unreadable = true;
  return std::nullopt;
}

std::shared_ptr<const Shelved<Form>> Shelf::form(const std::string& id, const std::string& loan,
                                                 const std::string& option, const Form& general) {
  const std::lock_guard lock(mutex_);
  const std::string key = id + "\n" + loan + "\n" + option;
  if (const auto known = forms_.find(key); known != forms_.end()) return known->second;
  DataFile file = data_file(option, "forms", id + ".yaml", files_);
  if (file.read.absent) return nullptr;
  auto made = std::make_shared<Shelved<Form>>();
  made->path = file.name;
  made->value = shelve_form(*made, std::move(file));
  if (made->value) {
    const bool whole = fill_from(*made->value, general, made->faults);
    // A loan has rules of its own where a form for it is installed.
    DataFile over = loan.empty() ? DataFile{} : data_file(option, "forms", "loan-" + loan + ".yaml", files_);
    if (!loan.empty() && !over.read.absent)
      if (const auto overlay = shelve_form(*made, std::move(over))) tighten(*made->value, *overlay);
    if (!whole || made->unreadable) made->value.reset();
  }
  return forms_.emplace(key, std::move(made)).first->second;
}

}  // namespace soundsill::cli
