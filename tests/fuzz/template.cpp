// A template of a paper from its bytes, which may be based on the packet's or on itself.
#include "template/template.h"

#include "fuzz/fuzz.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace soundsill;
  static const Source packet("packet.xml", fuzzing::file_text("templates/packet.xml"));
  fuzzing::read_text(fuzzing::text_of(data, size), [](const Source& source, Faults& faults) {
    return page::read_template(source, faults, [](std::string_view name, const Source& child) {
      return name.empty() ? page::FoundTemplate{nullptr, {"packet"}, false}
                          : page::FoundTemplate{name == "packet" ? &packet : &child, {}, false};
    });
  });
  return 0;
}
