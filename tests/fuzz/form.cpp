// A state's form from its bytes, filled and tightened as the program does it; and the words of the trade.
#include "jurisdiction/form.h"

#include "fuzz/fuzz.h"
#include "fuzz/yaml_mutator.h"

using namespace soundsill;

namespace {

const Form& general() {
  static const Source source("us-general.yaml", fuzzing::file_text("forms/us-general.yaml"));
  static const Form form = [] {
    Faults faults;
    auto read = read_form(source, faults);
    fuzzing::must(read.has_value(), "the general form can be read");
    return std::move(*read);
  }();
  return form;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzzing::text_of(data, size);
  if (text.starts_with("# What can be found")) {  // as forms/trade.yaml does
    fuzzing::read_text(text, read_trade);
    return 0;
  }
  fuzzing::read_text(text, [](const Source& source, Faults& faults) {
    auto form = read_form(source, faults);
    if (!form) return form;
    Form filled = *form;
    (void)fill_from(filled, general(), faults);
    tighten(filled, *form);
    return form;
  });
  return 0;
}
