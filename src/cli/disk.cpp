#include "cli/disk.h"

#include <fcntl.h>
#include <linux/openat2.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>

namespace soundsill::cli {
namespace fs = std::filesystem;
namespace {

std::string because(int error) { return std::strerror(error); }

FileRead read_descriptor(int fd, std::size_t limit, std::size_t start) {
  struct stat info {};
  if (::fstat(fd, &info) != 0) return {std::nullopt, because(errno)};
  if (S_ISDIR(info.st_mode)) return {std::nullopt, "it is a folder"};
  if (!S_ISREG(info.st_mode)) return {std::nullopt, "it is not a regular file"};
  if (static_cast<std::uint64_t>(info.st_size) > limit)
    return {std::nullopt, "it is larger than " + std::to_string(limit / 1'000'000) + " MB", false, true};
  std::string bytes(std::min(static_cast<std::size_t>(info.st_size), start), '\0');
  std::size_t have = 0;
  while (have < bytes.size()) {
    const ssize_t got = ::read(fd, bytes.data() + have, bytes.size() - have);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return {std::nullopt, because(errno)};
    if (got == 0) break;
    have += static_cast<std::size_t>(got);
  }
  bytes.resize(have);
  return {std::move(bytes), {}};
}

}  // namespace

namespace {

FileRead read_path(const std::string& path, std::size_t limit, std::size_t start) {
  // Without O_NONBLOCK a pipe that nobody writes to would hang the run.
  const Descriptor fd(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (fd.get() < 0 && errno == ENOENT) return {std::nullopt, "there is no such file", true};
  if (fd.get() < 0) return {std::nullopt, because(errno)};
  return read_descriptor(fd.get(), limit, start);
}

}  // namespace

FileRead DiskFiles::read(const std::string& path, std::size_t limit) const { return read_path(path, limit, limit); }

namespace {

/// Opens a file that the kernel itself keeps below a folder (openat2, Linux 5.6). -1 when it did not; then a look at
/// the whole path has to say why.
int open_below(const std::string& folder, const std::string& relative) {
  const Descriptor root(::open(folder.empty() ? "." : folder.c_str(), O_PATH | O_DIRECTORY | O_CLOEXEC));
  if (root.get() < 0) return -1;
  open_how how{};
  how.flags = O_RDONLY | O_CLOEXEC | O_NONBLOCK;
  how.resolve = RESOLVE_BENEATH;
  return static_cast<int>(::syscall(SYS_openat2, root.get(), relative.c_str(), &how, sizeof how));
}

}  // namespace

FileRead DiskFiles::read_inside(const std::string& folder, const std::string& relative, std::size_t limit,
                                std::size_t start) const {
  static const std::string outside = "it lies outside the folder of the file that names it";
  if (relative.empty() || relative.front() == '/' || relative.find('\0') != std::string::npos)
    return {std::nullopt, outside};
  if (const Descriptor below(open_below(folder, relative)); below.get() >= 0)
    return read_descriptor(below.get(), limit, start);
  std::error_code failed;
  const fs::path root = fs::weakly_canonical(folder.empty() ? "." : folder, failed);
  const fs::path full = fs::weakly_canonical(root / relative, failed);
  if (failed) return {std::nullopt, failed.message()};
  const auto [end, rest] = std::mismatch(root.begin(), root.end(), full.begin(), full.end());
  if (end != root.end()) return {std::nullopt, outside};
  return read_path(full.string(), limit, start);
}

bool DiskFiles::exists(const std::string& path) const {
  std::error_code failed;
  return fs::status(path, failed).type() != fs::file_type::not_found;
}

std::vector<std::string> DiskFiles::list(const std::string& folder) const {
  std::vector<std::string> names;
  std::error_code failed;
  for (const auto& entry : fs::directory_iterator(folder, failed)) names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

bool is_folder(const std::string& path) {
  std::error_code failed;
  return fs::is_directory(path, failed);
}

Placed write_whole(const std::string& path, std::string_view bytes, const Refusal& refusal) {
  if (std::string why = refusal(path); !why.empty()) return {std::move(why), {}};
  remove_leftovers(path);
  Temporary fresh(path, Temporary::Kind::file);
  if (!fresh.trouble().empty()) return {{}, fresh.trouble()};
  if (std::string trouble = fresh.write(bytes); !trouble.empty()) return {{}, std::move(trouble)};
  Placed placed = fresh.put_in_place(refusal);
  if (!placed.good()) return placed;
  // The new name is only safe when the folder itself is on the disk.
  const Descriptor folder(::open(folder_of(path).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (folder.get() >= 0) ::fsync(folder.get());
  return {};
}

}  // namespace soundsill::cli
