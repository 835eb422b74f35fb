#include "pdf/profile.h"

#include <array>
#include <cstdint>
#include <string_view>
#include <vector>

namespace soundsill::pdf {

namespace {

void add_16(std::string& out, std::uint32_t value) {
  out += static_cast<char>(value >> 8U & 0xFFU);
  out += static_cast<char>(value & 0xFFU);
}

void add_32(std::string& out, std::uint32_t value) {
  add_16(out, value >> 16U);
  add_16(out, value);
}

/// A point in XYZ, in steps of 1/65536.
using Point = std::array<std::int32_t, 3>;
constexpr Point d50{0xF6D6, 0x10000, 0xD32D};
// The primaries of sRGB as seen under D50.
constexpr Point red{0x6FA2, 0x38F5, 0x0390};
constexpr Point green{0x6299, 0xB785, 0x18DA};
constexpr Point blue{0x24A0, 0x0F84, 0xB6CF};

void add_point(std::string& out, const Point& point) {
  for (const std::int32_t part : point) add_32(out, static_cast<std::uint32_t>(part));
}

std::string point_element(const Point& point) {
  std::string out("XYZ \0\0\0\0", 8);
  add_point(out, point);
  return out;
}

std::string curve_element() {
  std::string out("curv\0\0\0\0", 8);
  add_32(out, 1);
  add_16(out, 0x0233);  // a plain power of 2.2, in steps of 1/256
  return out;
}

std::string text_element(std::string_view text) {
  std::string out("text\0\0\0\0", 8);
  out += text;
  return out += '\0';
}

/// A description also has empty parts for two older kinds of text.
std::string description_element(std::string_view text) {
  std::string out("desc\0\0\0\0", 8);
  add_32(out, static_cast<std::uint32_t>(text.size() + 1));
  out += text;
  out += '\0';
  return out.append(4 + 4 + 2 + 1 + 67, '\0');
}

struct Tag {
  std::string_view name;
  std::uint32_t offset, size;
};

/// Collects elements behind a table of known length.
class Elements {
 public:
  explicit Elements(std::uint32_t start) : start_(start) {}

  void add(std::string_view name, std::string element) {
    const auto size = static_cast<std::uint32_t>(element.size());
    element.resize((element.size() + 3) / 4 * 4);
    tags_.push_back({name, start_ + static_cast<std::uint32_t>(bytes_.size()), size});
    bytes_ += element;
  }
  void share_last(std::string_view name) { tags_.push_back({name, tags_.back().offset, tags_.back().size}); }

  [[nodiscard]] std::string table_and_bytes() const {
    std::string out;
    add_32(out, static_cast<std::uint32_t>(tags_.size()));
    for (const Tag& tag : tags_) {
      out += tag.name;
      add_32(out, tag.offset);
      add_32(out, tag.size);
    }
    return out + bytes_;
  }

 private:
  std::uint32_t start_;
  std::vector<Tag> tags_;
  std::string bytes_;
};

std::string header(std::size_t size) {
  std::string out;
  add_32(out, static_cast<std::uint32_t>(size));
  add_32(out, 0);
  add_32(out, 0x02100000);  // version 2.1, which PDF 1.4 knows
  out += "mntrRGB XYZ ";
  for (const std::uint32_t part : {2020U, 1U, 1U, 0U, 0U, 0U}) add_16(out, part);  // a fixed date
  out += "acsp";
  out.append(68 - out.size(), '\0');
  add_point(out, d50);
  out.append(128 - out.size(), '\0');
  return out;
}

}  // namespace

std::string rgb_profile() {
  constexpr std::uint32_t head = 128;
  constexpr std::uint32_t tags = 9;
  Elements elements(head + 4 + 12 * tags);
  elements.add("desc", description_element("sRGB, gamma 2.2"));
  elements.add("cprt", text_element("No copyright"));
  elements.add("wtpt", point_element(d50));
  elements.add("rXYZ", point_element(red));
  elements.add("gXYZ", point_element(green));
  elements.add("bXYZ", point_element(blue));
  elements.add("rTRC", curve_element());
  elements.share_last("gTRC");
  elements.share_last("bTRC");
  const std::string rest = elements.table_and_bytes();
  return header(head + rest.size()) + rest;
}

}  // namespace soundsill::pdf
