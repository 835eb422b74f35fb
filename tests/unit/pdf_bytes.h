// Looking into the bytes of a PDF without a reader.
#pragma once

#include <libdeflate.h>

#include <memory>
#include <string>
#include <string_view>

namespace soundsill::test {

inline std::size_t count(std::string_view text, std::string_view what) {
  std::size_t found = 0;
  for (auto at = text.find(what); at != std::string_view::npos; at = text.find(what, at + what.size())) ++found;
  return found;
}

inline bool has(std::string_view text, std::string_view what) { return text.find(what) != std::string_view::npos; }

/// All packed streams of the file, unpacked, one after the other.
inline std::string unpacked(std::string_view pdf) {
  const std::unique_ptr<libdeflate_decompressor, void (*)(libdeflate_decompressor*)> tool(
      libdeflate_alloc_decompressor(), libdeflate_free_decompressor);
  std::string all;
  constexpr std::string_view start = "stream\r\n";
  for (auto at = pdf.find(start); at != std::string_view::npos; at = pdf.find(start, at + 1)) {
    const std::string_view rest = pdf.substr(at + start.size());
    std::string out(1U << 20U, '\0');
    std::size_t taken = 0;
    std::size_t made = 0;
    if (libdeflate_zlib_decompress_ex(tool.get(), rest.data(), rest.size(), out.data(), out.size(), &taken, &made) ==
        LIBDEFLATE_SUCCESS)
      all += out.substr(0, made) + "\n";
  }
  return all;
}

/// The file, and behind it all that is packed in it: small objects and the operators of pages among that.
inline std::string laid_open(const std::string& pdf) { return pdf + unpacked(pdf); }

}  // namespace soundsill::test
