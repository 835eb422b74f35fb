// A template of a paper from its bytes.
#include "template/template.h"

#include "fuzz/fuzz.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  soundsill::fuzzing::read_text(soundsill::fuzzing::text_of(data, size), soundsill::page::read_template);
  return 0;
}
