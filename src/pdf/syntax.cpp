#include "pdf/syntax.h"

#include <algorithm>
#include <charconv>

#include "source/utf8.h"

namespace soundsill::pdf {

namespace {

constexpr std::string_view digits = "0123456789ABCDEF";

void put_whole(std::string& out, std::uint64_t value) {
  char buffer[24];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value).ptr;
  out.append(buffer, end);
}

void put_hex(std::string& out, unsigned byte) {
  out += digits[byte >> 4U & 0xFU];
  out += digits[byte & 0xFU];
}

/// Calls `use` with each 16-bit unit of the letters.
template <class Use>
void each_unit(std::u32string_view letters, Use use) {
  for (const char32_t letter : letters) {
    if (letter < 0x10000) {
      use(static_cast<unsigned>(letter));
      continue;
    }
    const auto rest = static_cast<unsigned>(letter) - 0x10000U;
    use(0xD800U + (rest >> 10U));
    use(0xDC00U + (rest & 0x3FFU));
  }
}

bool is_ascii(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c == '\n' || (c >= ' ' && c <= '~'); });
}

}  // namespace

void put(std::string& out, std::int64_t thousandths) {
  if (thousandths == 0) {
    out += '0';
    return;
  }
  if (thousandths < 0) out += '-';
  const auto size = static_cast<std::uint64_t>(thousandths < 0 ? -thousandths : thousandths);
  if (size >= 1000) put_whole(out, size / 1000);
  auto rest = static_cast<unsigned>(size % 1000);
  if (rest == 0) return;
  out += '.';
  for (unsigned place = 100; rest != 0; place /= 10) {
    out += digits[rest / place];
    rest %= place;
  }
}

void put_number(std::string& out, std::int64_t thousandths) {
  put(out, thousandths);
  out += ' ';
}

std::string number(std::int64_t thousandths) {
  std::string out;
  put(out, thousandths);
  return out;
}

std::int64_t divide(std::int64_t a, std::int64_t b) { return (a < 0 ? a - b / 2 : a + b / 2) / b; }

std::string reference(Id id) { return std::to_string(id) + " 0 R"; }

std::string rectangle(const page::Box& box, page::Milli sheet_height) {
  const std::int64_t height = sheet_height;
  std::string out = "[";
  put_number(out, box.x);
  put_number(out, height - box.y - box.height);
  put_number(out, std::int64_t{box.x} + box.width);
  put(out, height - box.y);
  return out += ']';
}

std::string literal(std::string_view bytes) {
  std::string out = "(";
  out.reserve(bytes.size() + 8);
  for (const char c : bytes) {
    if (c == '(' || c == ')' || c == '\\') out += '\\';
    if (c == '\r')
      out += "\\r";  // a bare one would be read as a line feed
    else
      out += c;
  }
  return out += ')';
}

std::string text_string(std::string_view utf8) {
  if (is_ascii(utf8)) return literal(utf8);
  std::string bytes = "\xFE\xFF";
  each_unit(utf8::decode(utf8), [&](unsigned unit) {
    bytes += static_cast<char>(unit >> 8U);
    bytes += static_cast<char>(unit & 0xFFU);
  });
  return literal(bytes);
}

std::string utf16_hex(std::u32string_view letters) {
  std::string out;
  each_unit(letters, [&](unsigned unit) {
    put_hex(out, unit >> 8U);
    put_hex(out, unit & 0xFFU);
  });
  return out;
}

std::string name(std::string_view text) {
  std::string out = "/";
  for (const char c : text) {
    const bool plain = c > ' ' && c <= '~' && std::string_view("()<>[]{}/%#").find(c) == std::string_view::npos;
    if (plain) {
      out += c;
    } else {
      out += '#';
      put_hex(out, static_cast<unsigned char>(c));
    }
  }
  return out;
}

std::string xml_text(std::string_view utf8) {
  std::string out;
  for (const char c : utf8) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else if (static_cast<unsigned char>(c) >= ' ' || c == '\n' || c == '\t')
      out += c;
  }
  return out;
}

}  // namespace soundsill::pdf
