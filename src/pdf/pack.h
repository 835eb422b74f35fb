// Deflate, as streams of a PDF want it.
#pragma once

#include <memory>
#include <string>
#include <string_view>

struct libdeflate_compressor;

namespace soundsill::pdf {

class Packer {
 public:
  Packer();
  [[nodiscard]] std::string pack(std::string_view bytes) const;

 private:
  struct Free {
    void operator()(libdeflate_compressor* compressor) const;
  };
  std::unique_ptr<libdeflate_compressor, Free> compressor_;
};

}  // namespace soundsill::pdf
