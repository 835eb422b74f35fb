// The sentences of a language from their bytes; a text that begins with `# translation` is held against the English.
#include "document/words.h"

#include "fuzz/fuzz.h"
#include "fuzz/yaml_mutator.h"

using namespace soundsill;

namespace {

const document::Words& english() {
  static const document::Words words = [] {
    const Source source("words.en.yaml", fuzzing::file_text("templates/words.en.yaml"));
    Faults faults;
    auto read = document::read_words(source, faults);
    fuzzing::must(read.has_value(), "the English words can be read");
    return std::move(*read);
  }();
  return words;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzzing::text_of(data, size);
  const document::Words* beside = text.starts_with("# translation") ? &english() : nullptr;
  fuzzing::read_text(text, [beside](const Source& source, Faults& faults) {
    auto words = document::read_words(source, faults, beside);
    if (words) fuzzing::must(!words->shown(Length::feet(7)).empty(), "words that were read can be said");
    return words;
  });
  return 0;
}
