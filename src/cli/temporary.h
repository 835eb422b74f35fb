// A new file or folder is made under a name of its own beside the old one, and put in its place when it is whole.
#pragma once

#include <functional>
#include <string>
#include <string_view>

namespace soundsill::cli {

/// Closes a descriptor whatever happens.
class Descriptor {
 public:
  explicit Descriptor(int fd = -1) : fd_(fd) {}
  ~Descriptor();
  Descriptor(Descriptor&& other) noexcept;
  Descriptor& operator=(Descriptor&& other) noexcept;
  [[nodiscard]] int get() const { return fd_; }
  /// The error of closing, 0 when there is none.
  int close();

 private:
  int fd_;
};

/// Why what stands at a place may not give way ("is no paper of soundsill"); empty when it may, or nothing stands
/// there.
using Refusal = std::function<std::string(const std::string& at)>;

struct Placed {
  std::string refusal;  ///< what stands there stays
  std::string trouble;  ///< in words, what failed
  [[nodiscard]] bool good() const { return refusal.empty() && trouble.empty(); }
};

/// A file or folder named `.NAME.tmp-KERNEL-RANDOM` beside NAME. No two writers share one: the name is created or
/// refused by the file system itself (O_EXCL, mkdir). It is locked as long as this lives, and is gone afterwards unless
/// it was put in place.
///
/// KERNEL tells which running kernel made it (its boot id). Only of these may `remove_leftovers` judge, and it does so
/// by the lock: a kernel lets go of the locks of a process that ended, whatever container it ran in. A process number
/// would tell nothing of another machine that sees the same folder. What cannot be locked, or was made by a kernel that
/// does not say who it is, has no KERNEL in its name and is never taken for a leftover.
class Temporary {
 public:
  enum class Kind { file, folder };
  Temporary(const std::string& path, Kind kind);
  ~Temporary();
  Temporary(const Temporary&) = delete;
  Temporary& operator=(const Temporary&) = delete;

  /// Why there is none, in words; empty when there is one.
  [[nodiscard]] const std::string& trouble() const { return trouble_; }
  [[nodiscard]] const std::string& name() const { return name_; }
  /// Writes all bytes to a file, down to the disk. Gives what went wrong, or an empty text.
  [[nodiscard]] std::string write(std::string_view bytes);
  /// Moves it to the path it was made for. `refusal` is asked about what it displaced, too: between a look at a place
  /// and a rename somebody else may have put a file there.
  [[nodiscard]] Placed put_in_place(const Refusal& refusal);

 private:
  int create();
  [[nodiscard]] std::string refused(const std::string& at, const Refusal& refusal) const;
  Placed exchange(const Refusal& refusal);
  Placed replace(const Refusal& refusal);
  Placed put_back(const std::string& why);
  [[nodiscard]] bool is_at(const std::string& name) const;
  void remove();

  std::string path_, name_, trouble_;
  Kind kind_;
  Descriptor held_;  ///< open and locked
};

/// Takes away what killed runs left beside `path`; only what is surely nobody's.
void remove_leftovers(const std::string& path);

}  // namespace soundsill::cli
