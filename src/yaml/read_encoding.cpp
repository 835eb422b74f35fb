#include "yaml/read_encoding.h"

#include "source/utf8.h"

namespace soundsill::yaml {

using utf8::Letter;

namespace {

std::string hex(std::uint32_t n) {
  std::string out;
  for (; n != 0 || out.size() < 2; n /= 16) out.insert(out.begin(), "0123456789ABCDEF"[n % 16]);
  return out;
}

bool is_utf16(std::string_view text) { return text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF"); }

struct Bad {
  std::size_t first = 0, count = 0;
  Letter letter;
  void note(std::size_t at, const Letter& what) {
    if (count++ == 0) {
      first = at;
      letter = what;
    }
  }
};

std::string and_others(std::size_t count) {
  if (count < 2) return "";
  return count == 2 ? ", and 1 more like it" : ", and " + std::to_string(count - 1) + " more like it";
}

void report_bytes(std::string_view text, const Bad& bad, Report& report) {
  const auto byte = static_cast<unsigned char>(text[bad.first]);
  report.add(
      Rule::bad_encoding, bad.first, bad.first + 1, "byte " + hex(byte) + " is not UTF-8 text" + and_others(bad.count),
      "the letter meant here would be printed as another one, or not at all", "save the file with the encoding UTF-8");
}

void report_control(const Bad& bad, Report& report) {
  const bool lone_return = bad.letter.code == '\r';
  report.add(Rule::bad_encoding, bad.first, bad.first + bad.letter.bytes,
             (lone_return ? "a carriage return stands here without a line feed"
                          : "control character " + hex(bad.letter.code) + " stands in the text") +
                 and_others(bad.count),
             lone_return ? "two lines would be read as one" : "it cannot be printed, and hides what is really written",
             lone_return ? "save the file with the line ends LF or CRLF" : "delete it");
}

}  // namespace

bool is_printable(std::uint32_t letter) {
  if (letter < 0x20) return letter == '\t' || letter == '\n';
  if (letter >= 0x7F && letter < 0xA0) return false;
  // Marks that turn the direction of writing: what follows would be shown otherwise than it is read.
  if ((letter >= 0x202A && letter <= 0x202E) || (letter >= 0x2066 && letter <= 0x2069)) return false;
  return letter != 0xFEFF && letter != 0xFFFE && letter != 0xFFFF && (letter < 0xD800 || letter >= 0xE000) &&
         letter <= 0x10FFFF;
}

std::size_t byte_order_mark(std::string_view text) { return text.starts_with("\xEF\xBB\xBF") ? 3 : 0; }

bool check_encoding(std::string_view text, Report& report) {
  if (is_utf16(text)) {
    report.add(Rule::bad_encoding, 0, 2, "the file is UTF-16 text, not UTF-8",
               "most programs that read YAML would see letters with gaps between them",
               "save the file with the encoding UTF-8");
    return false;
  }
  Bad bytes, controls;
  for (std::size_t at = byte_order_mark(text); at < text.size();) {
    const Letter letter = utf8::letter_at(text, at);
    const bool line_end = letter.code == '\r' && at + 1 < text.size() && text[at + 1] == '\n';
    if (!letter.valid)
      bytes.note(at, letter);
    else if (!is_printable(letter.code) && !line_end)
      controls.note(at, letter);
    at += letter.bytes;
  }
  if (bytes.count != 0) report_bytes(text, bytes, report);
  if (controls.count != 0) report_control(controls, report);
  return bytes.count == 0 && controls.count == 0;
}

}  // namespace soundsill::yaml
