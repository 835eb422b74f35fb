// Text and bytes as they stand in XML and HTML.
#pragma once

#include <string>
#include <string_view>

namespace soundsill {

/// Text for an element or a quoted attribute. What XML cannot hold becomes the sign for an unknown letter.
[[nodiscard]] std::string escaped(std::string_view text);
/// An id as it can stand in an address: letters, digits and hyphens; each other byte is its number behind a low line,
/// so that two ids are never one.
[[nodiscard]] std::string anchor(std::string_view id);
/// Whether a link leads out of a paper (https:, mailto: or tel:) rather than to a place in it.
[[nodiscard]] bool is_address(std::string_view link);
/// `data:` address of some bytes.
[[nodiscard]] std::string data_address(std::string_view mime, std::string_view bytes);

}  // namespace soundsill
