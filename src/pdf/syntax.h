// How numbers and texts are spelt in a PDF. No floating point decides a byte.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "pages/pages.h"

namespace soundsill::pdf {

/// Number of an object in the file.
using Id = std::uint32_t;

/// A count of thousandths with as few digits as it needs: 9500 is "9.5", -250 is "-.25".
void put(std::string& out, std::int64_t thousandths);
/// The same, followed by a space.
void put_number(std::string& out, std::int64_t thousandths);
[[nodiscard]] std::string number(std::int64_t thousandths);

/// a / b to the nearest whole number, halves away from zero; b is positive.
[[nodiscard]] std::int64_t divide(std::int64_t a, std::int64_t b);

[[nodiscard]] std::string reference(Id id);  ///< "12 0 R"
/// "[left bottom right top]" of a box on a sheet of that height.
[[nodiscard]] std::string rectangle(const page::Box& box, page::Milli sheet_height);

/// "(...)" of raw bytes, escaped so that every reader gets the same bytes back.
[[nodiscard]] std::string literal(std::string_view bytes);
/// A text string of the object table: ASCII as it is, all else as UTF-16 with its mark.
[[nodiscard]] std::string text_string(std::string_view utf8);
/// Hexadecimal digits of a text in UTF-16, without brackets.
[[nodiscard]] std::string utf16_hex(std::u32string_view letters);
/// "/Name", with what a name may not hold escaped.
[[nodiscard]] std::string name(std::string_view text);

/// Text of an XML element; letters that XML forbids are left out.
[[nodiscard]] std::string xml_text(std::string_view utf8);

}  // namespace soundsill::pdf
