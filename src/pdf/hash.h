// A fast fingerprint for identifiers inside the file. It proves nothing to anybody: no cryptography.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace soundsill::pdf {

/// FNV-1a over words of eight bytes, in two lanes. How the bytes are cut into pieces makes no difference.
class Fingerprint {
 public:
  void add(std::string_view bytes);
  [[nodiscard]] std::string hex() const;          ///< 32 digits
  [[nodiscard]] std::string six_letters() const;  ///< A to Z, as in the name of a subset

 private:
  void add_word(std::uint64_t word);
  [[nodiscard]] std::array<std::uint64_t, 2> finished() const;

  std::array<std::uint64_t, 2> lanes_{0xCBF29CE484222325U, 0x6C62272E07BB0142U};
  std::uint64_t pending_ = 0;  // bytes that do not fill a word yet
  std::uint64_t length_ = 0;
};

}  // namespace soundsill::pdf
