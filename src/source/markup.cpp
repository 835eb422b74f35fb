#include "source/markup.h"

#include "source/utf8.h"

namespace soundsill {
namespace {

// How many bytes the letter at the front takes; 0 when it is none, or one that XML refuses.
std::size_t letter_length(std::string_view text) {
  const utf8::Letter letter = utf8::letter_at(text, 0);
  const bool refused = (letter.code < 0x20 && letter.code != '\n' && letter.code != '\t') || letter.code == 0xFFFE ||
                       letter.code == 0xFFFF;
  return letter.valid && !refused ? letter.bytes : 0;
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
