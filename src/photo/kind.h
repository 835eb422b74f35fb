// What a file is, told by its first bytes and in words.
#pragma once

#include <string>
#include <string_view>

namespace soundsill::photo {

inline constexpr const char* cut_short = "it ends too early: the photo is cut short";
inline constexpr const char* damaged = "it is damaged: not all of its pixels can be read";

/// A container of HEIF with a picture coded as HEVC, or of a kind that the brand does not tell.
[[nodiscard]] bool begins_as_heic(std::string_view bytes);
[[nodiscard]] bool begins_as_jpeg(std::string_view bytes);
/// Also true for the first few bytes of a PNG that was cut within its signature.
[[nodiscard]] bool begins_as_png(std::string_view bytes);

/// For a file that is neither: what it is, as far as can be told, and what is needed instead.
[[nodiscard]] std::string what_it_is_instead(std::string_view bytes);

}  // namespace soundsill::photo
