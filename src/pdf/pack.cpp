#include "pdf/pack.h"

#include <libdeflate.h>

#include <new>
#include <stdexcept>

namespace soundsill::pdf {

namespace {
constexpr int level = 6;  // higher levels take twice the time for the last percent
}  // namespace

void Packer::Free::operator()(libdeflate_compressor* compressor) const { libdeflate_free_compressor(compressor); }

Packer::Packer() : compressor_(libdeflate_alloc_compressor(level)) {
  if (!compressor_) throw std::bad_alloc();
}

std::string Packer::pack(std::string_view bytes) const {
  std::string out(libdeflate_zlib_compress_bound(compressor_.get(), bytes.size()), '\0');
  const std::size_t size =
      libdeflate_zlib_compress(compressor_.get(), bytes.data(), bytes.size(), out.data(), out.size());
  if (size == 0) throw std::runtime_error("a stream could not be packed");
  out.resize(size);
  return out;
}

}  // namespace soundsill::pdf
