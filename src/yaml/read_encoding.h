// What a file must be before any YAML is looked at: UTF-8 text without control characters.
#pragma once

#include <cstdint>
#include <string_view>

#include "yaml/read_report.h"

namespace soundsill::yaml {

/// Whether a code point may stand in a file: no control character but tab and newline.
[[nodiscard]] bool is_printable(std::uint32_t letter);
/// Length of the UTF-8 byte order mark in front, 3 or 0.
[[nodiscard]] std::size_t byte_order_mark(std::string_view text);
/// Reports the first byte that is no text. One wrong encoding spoils many bytes, so one message names their number.
[[nodiscard]] bool check_encoding(std::string_view text, Report& report);

}  // namespace soundsill::yaml
