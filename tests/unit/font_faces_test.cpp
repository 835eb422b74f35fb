#include <catch2/catch.hpp>
#include <stdexcept>

#include "font/font.h"
#include "unit/font_files.h"

using namespace soundsill;

TEST_CASE("faces are found by key") {
  font::Faces faces;
  faces.add("regular", test::lato());
  faces.add("sans", test::dejavu());
  REQUIRE(faces.find("regular") != nullptr);
  CHECK(faces.find("regular")->name() == "regular");
  CHECK(faces.find("bold") == nullptr);
}

TEST_CASE("the fallback is one of the faces") {
  font::Faces faces;
  faces.add("sans", test::dejavu());
  CHECK_THROWS_AS(faces.fallback(), std::out_of_range);
  CHECK_THROWS_AS(faces.set_fallback("serif"), std::out_of_range);
  faces.set_fallback("sans");
  CHECK(&faces.fallback() == faces.find("sans"));
}
