#include <catch2/catch.hpp>
#include <random>

#include "photo/photo.h"
#include "unit/photo_images.h"

using namespace photo_images;
using soundsill::photo::damage;
using soundsill::photo::prepare;

namespace {

constexpr const char* cut_short = "it ends too early: the photo is cut short";

struct Sample {
  std::string name;
  std::string bytes;
};

/// One small file of each kind that is decoded in its own way.
std::vector<Sample> samples() {
  const Image image = waves(48, 40);
  const std::string exif = exif_block(6, true, true);
  const std::string profile = rgb_profile({0.68, 0.32, 0.265, 0.69, 0.15, 0.06}, 2.2);
  const Image indexes = painted(48, 40, 1, [](int x, int y, int) { return (x + y) / 7 % 4; });
  return {
      {"baseline", make_jpeg(image, {.exif = exif, .profile = profile})},
      {"progressive", make_jpeg(image, {.progressive = true, .full_colour = false})},
      {"restarts", make_jpeg(image, {.restart = 3, .full_colour = false})},
      {"grey", make_jpeg(waves(48, 40, 1))},
      {"cmyk", make_jpeg(waves(48, 40, 4), {.stored = JCS_YCCK})},
      {"png", make_png(image, {.exif = exif, .profile = profile})},
      {"interlaced", make_png(image, {.interlaced = true})},
      {"palette", make_png(indexes, {.type = PNG_COLOR_TYPE_PALETTE,
                                     .depth = 2,
                                     .palette = {{9, 9, 9}, {90, 0, 0}, {0, 90, 0}, {0, 0, 90}},
                                     .palette_alpha = {0, 128}})},
  };
}

/// Whatever the bytes are, there is a photo that can be read, or words.
void check_outcome(const std::string& bytes) {
  const auto outcome = prepare(bytes, 33, 29);
  CHECK(outcome.trouble.empty() == static_cast<bool>(outcome));
  CHECK(damage(bytes).empty() == static_cast<bool>(outcome));
  if (!outcome) return;
  CHECK(outcome.value->width <= 33);
  CHECK(outcome.value->height <= 29);
  CHECK(read_jpeg(outcome.value->jpeg).warnings == 0);
}

}  // namespace

TEST_CASE("whole photos have no damage") {
  for (const auto& [name, bytes] : samples()) {
    INFO(name);
    CHECK(damage(bytes).empty());
    check_outcome(bytes);
  }
}

TEST_CASE("a photo cut short anywhere is refused") {
  for (const auto& [name, bytes] : samples())
    for (std::size_t size = 1; size < bytes.size(); size += size + 40 < bytes.size() ? 3 : 1) {
      INFO(name << " of " << bytes.size() << " bytes, cut to " << size);
      REQUIRE(damage(bytes.substr(0, size)) == cut_short);
      REQUIRE(prepare(bytes.substr(0, size), 20, 20).trouble == cut_short);
    }
}

TEST_CASE("what stands behind the end of a photo does no harm") {
  for (const auto& [name, bytes] : samples()) {
    INFO(name);
    CHECK(damage(bytes + "a film of the moment, as some phones append it").empty());
  }
}

namespace {

/// Where the markers of a JPEG begin that stand between its first and its last scan; of a scan, not where it ends.
std::vector<std::size_t> markers(const std::string& jpeg) {
  std::vector<std::size_t> found;
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(jpeg[i]); };
  for (std::size_t at = 2; at + 4 <= jpeg.size() && byte(at) == 0xff && byte(at + 1) != 0xd9;) {
    found.push_back(at);
    const bool scan = byte(at + 1) == 0xda;
    at += 2U + byte(at + 2) * 256U + byte(at + 3);
    // Pixels end at the next marker that is neither a stuffed zero nor a restart (ISO/IEC 10918-1, B.1.1.2 and
    // F.1.2.3).
    while (scan && at + 2 <= jpeg.size() &&
           (byte(at) != 0xff || byte(at + 1) == 0 || (byte(at + 1) >= 0xd0 && byte(at + 1) <= 0xd7)))
      ++at;
    if (scan && at + 2 <= jpeg.size() && byte(at + 1) != 0xd9) at += 2U + byte(at + 2) * 256U + byte(at + 3);
  }
  return found;
}

}  // namespace

TEST_CASE("stray bytes between the markers of a JPEG are no damage") {
  for (const auto& [name, bytes] : samples()) {
    if (!bytes.starts_with("\xff\xd8")) continue;
    const auto places = markers(bytes);
    REQUIRE(places.size() >= 4);
    const auto plain = prepare(bytes, 20, 20);
    REQUIRE(plain);
    for (std::size_t i = 1; i < places.size(); ++i)
      for (const std::string& stray :
           {std::string(1, '\0'), std::string("\x20"), std::string("\xff\xff"), std::string(3, 'a')}) {
        INFO(name << ", before the marker at " << places[i]);
        const std::string changed = bytes.substr(0, places[i]) + stray + bytes.substr(places[i]);
        CHECK(damage(changed) == "");
        const auto prepared = prepare(changed, 20, 20);
        REQUIRE(prepared);
        CHECK(prepared.value->jpeg == plain.value->jpeg);
        REQUIRE(damage(changed.substr(0, changed.size() - 2)) == cut_short);
      }
  }
}

TEST_CASE("pixels left over at the end of a scan are damage") {
  for (const auto& [name, bytes] : samples()) {
    if (!bytes.starts_with("\xff\xd8")) continue;
    INFO(name);
    REQUIRE(bytes.ends_with("\xff\xd9"));
    CHECK_FALSE(damage(bytes.substr(0, bytes.size() - 2) + std::string(40, 'x') + "\xff\xd9").empty());
  }
}

TEST_CASE("a hole in the middle is damage") {
  for (const auto& [name, bytes] : samples()) {
    std::string holed = bytes;
    const std::size_t middle = bytes.size() * 3 / 4;
    holed.replace(middle, 12, "\xff\xd9\xff\xda\xff\xd0\xff\xd7\xff\xc4\xff\xd9");
    INFO(name);
    CHECK_FALSE(damage(holed).empty());
  }
}

TEST_CASE("a shortened photo with its end mark put back is damage") {
  const std::string bytes = make_jpeg(waves(64, 64));
  CHECK(damage(bytes.substr(0, bytes.size() * 2 / 3) + "\xff\xd9") ==
        "it is damaged: not all of its pixels can be read");
}

TEST_CASE("random changes end in a photo or in words") {
  std::mt19937 random(20240229);
  for (const auto& [name, bytes] : samples()) {
    INFO(name);
    for (int round = 0; round < 250; ++round) {
      std::string changed = bytes;
      for (unsigned changes = 1 + random() % 4; changes > 0; --changes) {
        const std::size_t near_front = random() % 2 == 0 ? std::min<std::size_t>(700, changed.size()) : changed.size();
        changed[random() % near_front] = static_cast<char>(random() & 0xffU);
      }
      check_outcome(changed);
    }
  }
}

TEST_CASE("pieces cut out or doubled end in a photo or in words") {
  std::mt19937 random(77);
  for (const auto& [name, bytes] : samples()) {
    INFO(name);
    for (int round = 0; round < 60; ++round) {
      std::string changed = bytes;
      const std::size_t at = random() % changed.size();
      const std::size_t length = random() % 60;
      if (round % 2 == 0)
        changed.erase(at, length);
      else
        changed.insert(at, bytes.substr(random() % bytes.size(), length));
      check_outcome(changed);
    }
  }
}

TEST_CASE("a photo stored in endless passes is refused") {
  const std::string bytes = make_jpeg(waves(48, 40), {.progressive = true});
  const std::size_t last_scan = bytes.rfind("\xff\xda");
  const std::string scan = bytes.substr(last_scan, bytes.size() - 2 - last_scan);
  std::string endless = bytes.substr(0, last_scan);
  for (int i = 0; i < 200; ++i) endless += scan;
  CHECK_FALSE(damage(endless + "\xff\xd9").empty());
}
