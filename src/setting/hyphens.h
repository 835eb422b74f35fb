// Where a word may be broken, from a dictionary of patterns.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace soundsill::page {

class Hyphens {
 public:
  /// `patterns` is a dictionary in the format of libhyphen, in UTF-8. Throws when it cannot be read.
  explicit Hyphens(std::string_view patterns);
  ~Hyphens();
  Hyphens(const Hyphens&) = delete;
  Hyphens& operator=(const Hyphens&) = delete;

  /// Offsets in bytes at which a hyphen may be put. Short words, names and whatever holds more than small letters are
  /// not broken.
  [[nodiscard]] std::vector<std::size_t> breaks(std::string_view word) const;

 private:
  struct Dictionary;
  std::unique_ptr<Dictionary> dictionary_;
};

}  // namespace soundsill::page
