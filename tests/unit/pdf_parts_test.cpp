#include <catch2/catch.hpp>
// lcms2.h is an outsider that reads our profile.
#include <lcms2.h>

#include <memory>
#include <set>
#include <stdexcept>

#include "pdf/hash.h"
#include "pdf/metadata.h"
#include "pdf/profile.h"
#include "pdf/syntax.h"
#include "unit/pdf_bytes.h"

using namespace soundsill;

TEST_CASE("a fingerprint does not care how the bytes were cut") {
  pdf::Fingerprint whole;
  whole.add("the same bytes, in one piece or in many");
  pdf::Fingerprint cut;
  for (const char* piece : {"the same", "", " bytes, in one", " piece or in many"}) cut.add(piece);
  CHECK(whole.hex() == cut.hex());
  CHECK(whole.hex().size() == 32);
}

TEST_CASE("fingerprints of texts that differ a little differ") {
  std::set<std::string> seen;
  for (const char* text : {"", "a", "b", "ab", "ba", "aaaaaaaa", "aaaaaaaab", "baaaaaaaa"}) {
    pdf::Fingerprint print;
    print.add(text);
    seen.insert(print.hex());
  }
  seen.insert([] {
    pdf::Fingerprint print;
    print.add(std::string_view("\0", 1));  // not the same as nothing
    return print.hex();
  }());
  CHECK(seen.size() == 9);
}

TEST_CASE("six letters name a subset") {
  pdf::Fingerprint print;
  print.add("x");
  CHECK(print.six_letters().size() == 6);
  CHECK(print.six_letters().find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ") == std::string::npos);
}

TEST_CASE("another program reads the colour profile as sRGB") {
  const std::string bytes = pdf::rgb_profile();
  CHECK(bytes.size() < 500);
  const std::unique_ptr<void, int (*)(void*)> ours(
      cmsOpenProfileFromMem(bytes.data(), static_cast<cmsUInt32Number>(bytes.size())), cmsCloseProfile);
  REQUIRE(ours);
  CHECK(cmsGetColorSpace(ours.get()) == cmsSigRgbData);
  const std::unique_ptr<void, int (*)(void*)> srgb(cmsCreate_sRGBProfile(), cmsCloseProfile);
  const std::unique_ptr<void, void (*)(void*)> change(
      cmsCreateTransform(ours.get(), TYPE_RGB_8, srgb.get(), TYPE_RGB_8, INTENT_RELATIVE_COLORIMETRIC, 0),
      cmsDeleteTransform);
  REQUIRE(change);
  for (const int level : {20, 128, 200, 255}) {
    const unsigned char in[3] = {static_cast<unsigned char>(level), 60, 230};
    unsigned char out[3] = {};
    cmsDoTransform(change.get(), in, out, 1);
    for (int i = 0; i < 3; ++i) CHECK(std::abs(out[i] - in[i]) <= 8);
  }
}

TEST_CASE("a date is given as midnight") {
  CHECK(pdf::pdf_date("2025-01-31") == "D:20250131000000Z");
  CHECK(pdf::pdf_date("").empty());
  CHECK_THROWS_AS(pdf::pdf_date("31.01.2025"), std::invalid_argument);
  CHECK_THROWS_AS(pdf::pdf_date("2025-1-311"), std::invalid_argument);
}

TEST_CASE("both places say the same of the file, or nothing") {
  page::Pages pages;
  pages.title = "Łódź & \x02more";
  pages.language = "en";
  pdf::Options options;
  options.producer = "soundsill 0.1.0";
  CHECK(test::has(pdf::xmp(pages, options), "Łódź &amp; more"));
  CHECK(test::has(pdf::info(pages, options), pdf::text_string("Łódź & more")));
  CHECK_FALSE(test::has(pdf::xmp(pages, options), "Date"));
  CHECK_FALSE(test::has(pdf::info(pages, options), "Date"));
  CHECK_FALSE(test::has(pdf::xmp(pages, options), "dc:creator"));
  CHECK_FALSE(test::has(pdf::info(pages, options), "Author"));
  pages.created = "2025-01-31";
  CHECK(test::has(pdf::xmp(pages, options), "<xmp:ModifyDate>2025-01-31T00:00:00Z<"));
  CHECK(test::count(pdf::info(pages, options), "(D:20250131000000Z)") == 2);
}
