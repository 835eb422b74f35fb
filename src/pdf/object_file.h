// The bytes of a PDF 1.7: objects one after the other, small ones packed together, and the table of where they stand.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "pdf/pack.h"

namespace soundsill::pdf {

class ObjectFile {
 public:
  /// `count` objects, number 0 (which none has) among them.
  ObjectFile(const Packer& packer, std::size_t count);

  void add(std::size_t number, std::string_view value);
  /// For an object without a stream of its own.
  void add_packed(std::size_t number, std::string value);

  /// The whole file; its /ID is made from all that stands before it. `catalog` and `info` are object numbers.
  [[nodiscard]] std::string finish(std::size_t catalog, std::size_t info) &&;

 private:
  enum class Kind : std::uint8_t { free = 0, plain = 1, packed = 2 };
  /// Where an object stands: at a byte, or in the object stream `place` as its `index`.
  struct Place {
    Kind kind = Kind::free;
    std::size_t place = 0, index = 0;
  };

  struct Small {
    std::size_t number = 0;
    std::string value;
  };

  void close_pack();
  [[nodiscard]] std::string table() const;

  const Packer& packer_;
  std::string out_;
  std::vector<Place> places_;
  std::vector<Small> pack_;  ///< what waits for the next pack
};

}  // namespace soundsill::pdf
