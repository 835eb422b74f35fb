// Serves cli/twin.h. Pictures of pages, drawn by another program.
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <filesystem>

#include "cli/twin.h"

extern "C" char** environ;  // NOLINT: the name is POSIX's

namespace soundsill::cli {
namespace fs = std::filesystem;
namespace {

constexpr const char* dots_an_inch = "110";

/// "page-07.png": what an earlier run has made, and may be replaced. Pictures of any other name are somebody's own.
bool is_picture(std::string_view name) {
  constexpr std::string_view ending = ".png";
  if (!name.ends_with(ending)) return false;
  name.remove_suffix(ending.size());
  const auto hyphen = name.rfind('-');
  if (hyphen == std::string_view::npos || hyphen + 1 == name.size()) return false;
  const auto kind = name.substr(0, hyphen), number = name.substr(hyphen + 1);
  constexpr std::string_view kinds[] = {"page", "findings", "estimate", "plan"};
  return std::find(std::begin(kinds), std::end(kinds), kind) != std::end(kinds) &&
         std::all_of(number.begin(), number.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// No shell: the words of the command are fixed but for two names of our own making.
std::string run_pdftoppm(const std::string& pdf, const std::string& prefix) {
  std::array<std::string, 6> words{"pdftoppm", "-png", "-r", dots_an_inch, pdf, prefix};
  std::array<char*, 7> argv{};
  for (std::size_t i = 0; i < words.size(); ++i) argv[i] = words[i].data();
  pid_t child = 0;
  const int error = ::posix_spawnp(&child, "pdftoppm", nullptr, nullptr, argv.data(), environ);
  if (error == ENOENT) return "pdftoppm is not installed; it comes with the package poppler-utils";
  if (error != 0) return std::string("pdftoppm cannot be started: ") + std::strerror(error);
  int status = 0;
  while (::waitpid(child, &status, 0) < 0)
    if (errno != EINTR) return std::string("pdftoppm got lost: ") + std::strerror(errno);
  if (!WIFEXITED(status)) return "pdftoppm was stopped";
  if (WEXITSTATUS(status) == 127) return "pdftoppm is not installed; it comes with the package poppler-utils";
  return WEXITSTATUS(status) == 0 ? "" : "pdftoppm ended with status " + std::to_string(WEXITSTATUS(status));
}

/// Whether there is a picture of the pages of this name.
bool made_any(const std::string& folder, const std::string& name) {
  std::error_code failed;
  for (const auto& entry : fs::directory_iterator(folder, failed))
    if (const std::string made = entry.path().filename().string(); made.starts_with(name + "-") && is_picture(made))
      return true;
  return false;
}

/// Whether what stands at the place may give way to new pictures.
std::string refusal(const std::string& folder) {
  std::error_code failed;
  if (!fs::exists(folder, failed)) return {};
  if (!fs::is_directory(folder, failed)) return "it is no folder";
  for (const auto& entry : fs::directory_iterator(folder, failed))
    if (!entry.is_regular_file(failed) || !is_picture(entry.path().filename().string()))
      return "it holds `" + entry.path().filename().string() + "`, which is no picture of a page";
  return failed ? failed.message() : "";
}

}  // namespace

std::string write_pictures(const std::string& folder, const std::vector<std::pair<std::string, std::string>>& pdfs) {
  std::string path = folder;
  while (path.size() > 1 && path.back() == '/') path.pop_back();
  if (std::string why = refusal(path); !why.empty()) return why;
  remove_leftovers(path);
  Temporary fresh(path, Temporary::Kind::folder);
  if (!fresh.trouble().empty()) return fresh.trouble();
  for (const auto& [name, bytes] : pdfs) {
    const std::string pdf = join_path(fresh.name(), name + ".pdf");
    const Placed written = write_whole(pdf, bytes, [](const std::string&) { return std::string(); });
    if (!written.good()) return written.refusal + written.trouble;
    if (std::string trouble = run_pdftoppm(pdf, join_path(fresh.name(), name)); !trouble.empty()) return trouble;
    std::error_code failed;
    if (!fs::remove(pdf, failed)) return failed.message();
    if (!made_any(fresh.name(), name)) return "pdftoppm made no picture";
  }
  const Placed placed = fresh.put_in_place(refusal);
  return placed.refusal + placed.trouble;
}

}  // namespace soundsill::cli
