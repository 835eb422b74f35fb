#include "photo/exif.h"

#include <cstdint>
#include <optional>

namespace soundsill::photo {

namespace {

constexpr std::uint32_t tag_orientation = 0x0112;
constexpr std::uint32_t tag_camera_folder = 0x8769;
constexpr std::uint32_t tag_exchange_folder = 0xa005;
constexpr std::uint32_t tag_exchange_rule = 0x0001;
constexpr std::uint32_t type_text = 2;
constexpr std::uint32_t type_short = 3;

/// Numbers out of a block, by its byte order. Reading past the end gives nothing.
class Block {
 public:
  explicit Block(std::string_view bytes) : bytes_(bytes), big_(bytes.starts_with("MM")) {}

  [[nodiscard]] std::optional<std::uint32_t> number(std::size_t at, std::size_t size) const {
    if (at > bytes_.size() || size > bytes_.size() - at) return std::nullopt;
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < size; ++i)
      value = value << 8U | static_cast<unsigned char>(bytes_[at + (big_ ? i : size - 1 - i)]);
    return value;
  }
  [[nodiscard]] bool has(std::size_t at, std::string_view text) const {
    return at <= bytes_.size() && bytes_.substr(at).starts_with(text);
  }

 private:
  std::string_view bytes_;
  bool big_;
};

/// Where the entry of a tag stands in the folder at `folder`.
std::optional<std::size_t> find_entry(const Block& block, std::size_t folder, std::uint32_t tag) {
  const auto count = block.number(folder, 2);
  for (std::size_t i = 0; count && i < *count; ++i) {
    const std::size_t entry = folder + 2 + 12 * i;
    const auto found = block.number(entry, 2);
    if (!found) break;
    if (*found == tag) return entry;
  }
  return std::nullopt;
}

/// The folder that an entry of another folder points to.
std::optional<std::size_t> subfolder(const Block& block, std::size_t folder, std::uint32_t tag) {
  const auto entry = find_entry(block, folder, tag);
  return entry ? block.number(*entry + 8, 4) : std::nullopt;
}

int orientation_in(const Block& block, std::size_t folder) {
  const auto entry = find_entry(block, folder, tag_orientation);
  if (!entry) return 1;
  const auto value = block.number(*entry + 8, block.number(*entry + 2, 2) == type_short ? 2 : 4);
  return value && *value >= 1 && *value <= 8 ? static_cast<int>(*value) : 1;
}

bool wide_colours_in(const Block& block, std::size_t folder) {
  const auto camera = subfolder(block, folder, tag_camera_folder);
  const auto exchange = camera ? subfolder(block, *camera, tag_exchange_folder) : std::nullopt;
  const auto entry = exchange ? find_entry(block, *exchange, tag_exchange_rule) : std::nullopt;
  return entry && block.number(*entry + 2, 2) == type_text && block.has(*entry + 8, "R03");
}

}  // namespace

Exif read_exif(std::string_view bytes) {
  if (!bytes.starts_with("II") && !bytes.starts_with("MM")) return {};
  const Block block(bytes);
  const auto folder = block.number(4, 4);
  if (block.number(2, 2) != 42U || !folder) return {};
  return {orientation_in(block, *folder), wide_colours_in(block, *folder)};
}

}  // namespace soundsill::photo
