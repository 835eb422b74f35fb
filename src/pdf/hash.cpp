#include "pdf/hash.h"

#include <bit>
#include <cstring>

namespace soundsill::pdf {

namespace {

constexpr std::uint64_t prime = 0x100000001B3U;

/// Spreads every bit over the whole word (the finishing step of a well-known 64-bit mixer).
std::uint64_t spread(std::uint64_t x) {
  x = (x ^ x >> 30U) * 0xBF58476D1CE4E5B9U;
  x = (x ^ x >> 27U) * 0x94D049BB133111EBU;
  return x ^ x >> 31U;
}

}  // namespace

void Fingerprint::add(std::string_view bytes) {
  if (length_ % 8 == 0)  // whole words at once
    for (std::uint64_t word = 0; bytes.size() >= sizeof word; bytes.remove_prefix(sizeof word)) {
      std::memcpy(&word, bytes.data(), sizeof word);
      add_word(word);
      length_ += sizeof word;
    }
  for (const char c : bytes) {
    const auto place = 8U * static_cast<unsigned>(length_ % 8);
    pending_ |= std::uint64_t{static_cast<unsigned char>(c)} << place;
    if (++length_ % 8 != 0) continue;
    add_word(pending_);
    pending_ = 0;
  }
}

void Fingerprint::add_word(std::uint64_t word) {
  lanes_[0] = (lanes_[0] ^ word) * prime;
  // A plain product never carries high bits down, so the second lane turns.
  lanes_[1] = (std::rotl(lanes_[1], 29) ^ word) * prime;
}

std::array<std::uint64_t, 2> Fingerprint::finished() const {
  Fingerprint last = *this;
  last.add_word(pending_);
  last.add_word(length_);
  return {spread(last.lanes_[0] ^ last.lanes_[1]), spread(last.lanes_[1])};
}

std::string Fingerprint::hex() const {
  std::string out;
  for (const std::uint64_t lane : finished())
    for (unsigned shift = 64; shift > 0; shift -= 4) out += "0123456789ABCDEF"[lane >> (shift - 4) & 0xFU];
  return out;
}

std::string Fingerprint::six_letters() const {
  std::string out;
  std::uint64_t rest = finished()[0];
  for (int i = 0; i < 6; ++i, rest /= 26) out += static_cast<char>('A' + rest % 26);
  return out;
}

}  // namespace soundsill::pdf
