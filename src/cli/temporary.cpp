#include "cli/temporary.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <utility>

#include "source/files.h"

namespace soundsill::cli {
namespace fs = std::filesystem;
namespace {

std::string because(int error) { return std::strerror(error); }

std::string hex(std::uint64_t number) {
  std::string out(16, '0');
  for (std::size_t i = out.size(); i-- > 0; number /= 16) out[i] = "0123456789abcdef"[number % 16];
  return out;
}

std::string random_word() {
  std::uint64_t number = 0;
  while (::getrandom(&number, sizeof number, 0) != static_cast<ssize_t>(sizeof number)) {
  }
  return hex(number);
}

/// Twelve digits that no other running kernel has; empty where the kernel does not tell them.
const std::string& kernel() {
  static const std::string id = [] {
    const Descriptor fd(::open("/proc/sys/kernel/random/boot_id", O_RDONLY | O_CLOEXEC));
    char text[13];  // 8 digits, a hyphen, 4 digits
    if (fd.get() < 0 || ::read(fd.get(), text, sizeof text) != static_cast<ssize_t>(sizeof text)) return std::string();
    return std::string(text, 8) + std::string(text + 9, 4);
  }();
  return id;
}

std::string beside(const std::string& path, const std::string& middle) {
  return join_path(folder_of(path), "." + fs::path(path).filename().string() + middle);
}

constexpr const char* temporary_middle = ".tmp-";
/// What is exchanged has another middle: what came out may be somebody's own, so that no run ever takes it away.
constexpr const char* displaced_middle = ".old-";

int open_flags(Temporary::Kind kind) {
  return O_CLOEXEC | O_NOFOLLOW | (kind == Temporary::Kind::folder ? O_RDONLY | O_DIRECTORY : O_WRONLY | O_NONBLOCK);
}

}  // namespace

Descriptor::~Descriptor() {
  if (fd_ >= 0) ::close(fd_);
}

Descriptor::Descriptor(Descriptor&& other) noexcept : fd_(std::exchange(other.fd_, -1)) {}

Descriptor& Descriptor::operator=(Descriptor&& other) noexcept {
  std::swap(fd_, other.fd_);
  return *this;
}

int Descriptor::close() {
  const int fd = std::exchange(fd_, -1);
  return ::close(fd) == 0 ? 0 : errno;
}

Temporary::Temporary(const std::string& path, Kind kind) : path_(path), kind_(kind) {
  constexpr int attempts = 100;  // a name may be taken, or taken away before it is locked; both are rare
  bool lockable = !kernel().empty();
  int error = 0;
  for (int i = 0; i < attempts; ++i) {
    name_ = beside(path_, temporary_middle + (lockable ? kernel() + "-" : "") + random_word());
    error = create();
    if (error == EEXIST) continue;
    if (error != 0) break;
    if (!lockable) return;
    if (::flock(held_.get(), LOCK_EX | LOCK_NB) == 0) {
      if (is_at(name_)) return;
    } else if (errno != EWOULDBLOCK) {  // this file system knows no locks
      remove();
      lockable = false;
    }  // else somebody looks whether it is a leftover, and takes it away
    error = EEXIST;
  }
  name_.clear();
  trouble_ = because(error);
}

/// Makes it under its name; the error, or 0.
int Temporary::create() {
  if (kind_ == Kind::file) {
    held_ = Descriptor(::open(name_.c_str(), open_flags(kind_) | O_CREAT | O_EXCL, 0644));
    return held_.get() < 0 ? errno : 0;
  }
  if (::mkdir(name_.c_str(), 0755) != 0) return errno;
  held_ = Descriptor(::open(name_.c_str(), open_flags(kind_)));
  return held_.get() >= 0 ? 0 : errno == ENOENT ? EEXIST : errno;  // gone again: taken for a leftover
}

Temporary::~Temporary() {
  if (!name_.empty()) remove();
}

void Temporary::remove() {
  std::error_code ignored;
  fs::remove_all(name_, ignored);
}

/// Whether a name is that of what is held.
bool Temporary::is_at(const std::string& name) const {
  struct stat mine {
  }, there{};
  return ::fstat(held_.get(), &mine) == 0 && ::lstat(name.c_str(), &there) == 0 && mine.st_dev == there.st_dev &&
         mine.st_ino == there.st_ino;
}

std::string Temporary::write(std::string_view bytes) {
  // The lock lives as long as one of two descriptors, and what fails on closing is told before the file is moved.
  Descriptor lock(::fcntl(held_.get(), F_DUPFD_CLOEXEC, 0));
  if (lock.get() < 0) return because(errno);
  while (!bytes.empty()) {
    const ssize_t put = ::write(held_.get(), bytes.data(), bytes.size());
    if (put < 0 && errno == EINTR) continue;
    if (put < 0) return because(errno);
    bytes.remove_prefix(static_cast<std::size_t>(put));
  }
  if (::fsync(held_.get()) != 0) return because(errno);
  const int error = held_.close();
  held_ = std::move(lock);
  return error == 0 ? "" : because(error);
}

namespace {

int rename_with(const std::string& from, const std::string& to, unsigned flags) {
  return ::renameat2(AT_FDCWD, from.c_str(), AT_FDCWD, to.c_str(), flags) == 0 ? 0 : errno;
}

/// Renames unless something stands there; the error is EEXIST then.
int rename_to_free(const std::string& from, const std::string& to) {
  const int error = rename_with(from, to, RENAME_NOREPLACE);
  if (error != EINVAL && error != ENOSYS) return error;
  // NFS and others know no flags. There a second name is as good: making it fails when something stands there. What
  // knows no second names either (some FUSE), or is a folder, is renamed after a look, and only there a file that comes
  // between look and rename would be lost.
  if (::link(from.c_str(), to.c_str()) == 0) return ::unlink(from.c_str()) == 0 ? 0 : errno;
  if (errno == EEXIST) return EEXIST;
  struct stat there {};
  if (::lstat(to.c_str(), &there) == 0) return EEXIST;
  return ::rename(from.c_str(), to.c_str()) == 0 ? 0 : errno;
}

}  // namespace

/// A file takes the place of no folder, whatever is in it.
std::string Temporary::refused(const std::string& at, const Refusal& refusal) const {
  struct stat there {};
  if (kind_ == Kind::file && ::lstat(at.c_str(), &there) == 0 && S_ISDIR(there.st_mode)) return "is a folder";
  return refusal(at);
}

Placed Temporary::put_in_place(const Refusal& refusal) {
  constexpr int attempts = 100;
  for (int i = 0; i < attempts; ++i) {
    const int error = rename_to_free(name_, path_);
    if (error == 0) {
      name_.clear();
      return {};
    }
    if (error != EEXIST) return {{}, because(error)};
    if (std::string why = refused(path_, refusal); !why.empty()) return {std::move(why), {}};
    // From here until what comes out was looked at, nobody may take it for a leftover.
    const std::string kept = beside(path_, displaced_middle + random_word());
    if (::rename(name_.c_str(), kept.c_str()) != 0) return {{}, because(errno)};
    name_ = kept;
    const int failed = rename_with(name_, path_, RENAME_EXCHANGE);
    if (failed == 0) return exchange(refusal);
    if (failed == EINVAL || failed == ENOSYS) return replace(refusal);
    if (failed != ENOENT) return {{}, because(failed)};  // else what stood there has gone meanwhile
  }
  return {{}, "other programs change it all the time"};
}

/// After an exchange: what stood at the place bears the other name now.
Placed Temporary::exchange(const Refusal& refusal) {
  const std::string why = refused(name_, refusal);
  if (!why.empty()) return put_back(why);
  remove();
  name_.clear();
  return {};
}

Placed Temporary::put_back(const std::string& why) {
  int error = rename_with(name_, path_, RENAME_EXCHANGE);
  if (error == ENOENT) error = rename_to_free(name_, path_);
  if (error == 0 && is_at(name_)) return {why, {}};  // ours came out again, and goes with this
  const std::string left = std::exchange(name_, "");
  struct stat there {};
  if (::lstat(left.c_str(), &there) != 0) return {why, {}};
  // The exchange failed, or another program has put its own there in between: nothing of it is taken away.
  return {{}, (error == 0 ? "" : because(error) + "; ") + "what stood there is `" + left + "` now"};
}

/// Where nothing can be exchanged (NFS and others know no flags): a look, and a rename. A file that is put there just
/// between the two is lost.
Placed Temporary::replace(const Refusal& refusal) {
  if (std::string why = refused(path_, refusal); !why.empty()) return {std::move(why), {}};
  if (kind_ == Kind::file) {
    if (::rename(name_.c_str(), path_.c_str()) != 0) return {{}, because(errno)};
    name_.clear();
    return {};
  }
  // A folder does not give way to another; it goes aside, and comes back when the new one does not arrive.
  const std::string old = beside(path_, displaced_middle + random_word());
  if (::rename(path_.c_str(), old.c_str()) != 0) return {{}, because(errno)};
  if (::rename(name_.c_str(), path_.c_str()) != 0) {
    std::string trouble = because(errno);
    if (::rename(old.c_str(), path_.c_str()) != 0) trouble += "; what stood there is `" + old + "` now";
    return {{}, trouble};
  }
  name_ = old;
  remove();
  name_.clear();
  return {};
}

void remove_leftovers(const std::string& path) {
  if (kernel().empty()) return;
  const std::string prefix = fs::path(beside(path, temporary_middle)).filename().string() + kernel() + "-";
  std::error_code failed;
  std::vector<fs::path> found;
  for (auto it = fs::directory_iterator(folder_of(path), failed); !failed && it != fs::directory_iterator();
       it.increment(failed))
    if (it->path().filename().string().starts_with(prefix)) found.push_back(it->path());
  for (const fs::path& left : found) {
    std::error_code unknown;
    const bool folder = fs::is_directory(fs::symlink_status(left, unknown));
    const Descriptor held(::open(left.c_str(), open_flags(folder ? Temporary::Kind::folder : Temporary::Kind::file)));
    if (held.get() >= 0 && ::flock(held.get(), LOCK_EX | LOCK_NB) == 0) fs::remove_all(left, unknown);
  }
}

}  // namespace soundsill::cli
