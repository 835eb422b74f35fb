// A company's file from its bytes.
#include "company/company.h"

#include "fuzz/fuzz.h"
#include "fuzz/yaml_mutator.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  soundsill::fuzzing::read_text(soundsill::fuzzing::text_of(data, size), soundsill::read_company);
  return 0;
}
