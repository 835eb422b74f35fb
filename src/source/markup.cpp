#include "source/markup.h"

#include <cstdint>

namespace soundsill {
namespace {

// How many bytes the UTF-8 letter at the front takes; 0 when it is none, or one that XML refuses.
std::size_t letter_length(std::string_view text) {
  const auto byte = [&](std::size_t i) -> std::uint32_t { return static_cast<unsigned char>(text[i]); };
  const std::uint32_t first = byte(0);
  if (first < 0x80) return first >= 0x20 || first == '\n' || first == '\t' ? 1 : 0;
  const std::size_t length = first >= 0xF5 ? 0 : first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : first >= 0xC2 ? 2 : 0;
  if (length == 0 || text.size() < length) return 0;
  std::uint32_t code = first & (0x7FU >> length);
  for (std::size_t i = 1; i < length; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return 0;
    code = code << 6U | (byte(i) & 0x3FU);
  }
  const bool too_long = (length == 3 && code < 0x800) || (length == 4 && (code < 0x10000 || code > 0x10FFFF));
  return too_long || (code >= 0xD800 && code <= 0xDFFF) || code == 0xFFFE || code == 0xFFFF ? 0 : length;
}

}  // namespace

bool is_address(std::string_view link) {
  for (const std::string_view scheme : {"https://", "mailto:", "tel:"})
    if (link.starts_with(scheme)) return link.size() > scheme.size();
  return false;
}

std::string escaped(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const std::size_t length = letter_length(text);
    const std::string_view letter = text.substr(0, length);
    if (length == 0)
      out += "\uFFFD";
    else if (letter == "&")
      out += "&amp;";
    else if (letter == "<")
      out += "&lt;";
    else if (letter == ">")
      out += "&gt;";
    else if (letter == "\"")
      out += "&quot;";
    else if (letter == "'")
      out += "&#39;";
    else
      out += letter;
    text.remove_prefix(length == 0 ? 1 : length);
  }
  return out;
}

std::string anchor(std::string_view id) {
  std::string out;
  for (const char c : id) {
    const bool plain = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-';
    if (plain) {
      out += c;
      continue;
    }
    constexpr std::string_view digits = "0123456789ABCDEF";
    const auto byte = static_cast<unsigned char>(c);
    out += {'_', digits[byte >> 4U], digits[byte & 0xFU]};
  }
  return out;
}

std::string data_address(std::string_view mime, std::string_view bytes) {
  static constexpr char letters[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string out = "data:" + std::string(mime) + ";base64,";
  out.reserve(out.size() + (bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    const auto byte = [&](std::size_t k) -> std::uint32_t {
      return k < bytes.size() ? static_cast<unsigned char>(bytes[k]) : 0U;
    };
    const std::uint32_t three = byte(i) << 16U | byte(i + 1) << 8U | byte(i + 2);
    out += letters[three >> 18U & 63U];
    out += letters[three >> 12U & 63U];
    out += i + 1 < bytes.size() ? letters[three >> 6U & 63U] : '=';
    out += i + 2 < bytes.size() ? letters[three & 63U] : '=';
  }
  return out;
}

}  // namespace soundsill
