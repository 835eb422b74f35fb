// The sentences of the papers, read once.
#pragma once

#include <catch2/catch.hpp>

#include "document/words.h"
#include "support/case_harness.h"

namespace soundsill::testing {

inline const document::Words& english_words() {
  static Sources sources;
  static const document::Words words = [] {
    Faults faults;
    auto read = document::read_words(sources.add("words", file_text("templates/words.en.yaml")), faults);
    INFO(told(faults));
    REQUIRE(read);
    return *read;
  }();
  return words;
}

}  // namespace soundsill::testing
