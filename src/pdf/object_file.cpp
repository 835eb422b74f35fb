#include "pdf/object_file.h"

#include <utility>

#include "pdf/hash.h"

namespace soundsill::pdf {
namespace {

// The second line tells programs that guess that these are bytes, not text.
constexpr std::string_view head = "%PDF-1.7\n%\xB7\xBE\xAD\xAA\n";
constexpr std::size_t most_in_pack = 2000;  // who wants one object has to unpack them all
// Widths of a row of the table: kind, place, index.
constexpr unsigned kind_bytes = 1, place_bytes = 4, index_bytes = 2;
constexpr std::size_t row_bytes = kind_bytes + place_bytes + index_bytes;

void put_bytes(std::string& out, std::size_t value, unsigned count) {
  for (unsigned shift = 8 * count; shift > 0; shift -= 8) out += static_cast<char>(value >> (shift - 8) & 0xFFU);
}

/// Each row as what it differs from the one above it (PNG's filter "up"): neighbors are alike, and pack well.
std::string differences(std::string_view rows) {
  constexpr char up = 2;
  std::string out;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (i % row_bytes == 0) out += up;
    const char above = i >= row_bytes ? rows[i - row_bytes] : '\0';
    out += static_cast<char>(static_cast<unsigned char>(rows[i]) - static_cast<unsigned char>(above));
  }
  return out;
}

std::string stream(const std::string& entries, std::string_view packed) {
  return "<<" + entries + " /Filter /FlateDecode /Length " + std::to_string(packed.size()) + ">>\nstream\r\n" +
         std::string(packed) + "\nendstream";
}

}  // namespace

ObjectFile::ObjectFile(const Packer& packer, std::size_t count) : packer_(packer), out_(head), places_(count) {}

void ObjectFile::add(std::size_t number, std::string_view value) {
  places_.at(number) = {Kind::plain, out_.size(), 0};
  out_ += std::to_string(number) + " 0 obj\n";
  (out_ += value) += "\nendobj\n";
}

void ObjectFile::add_packed(std::size_t number, std::string value) {
  pack_.push_back({number, std::move(value)});
  if (pack_.size() == most_in_pack) close_pack();
}

void ObjectFile::close_pack() {
  if (pack_.empty()) return;
  std::string heads, values;
  for (std::size_t i = 0; i < pack_.size(); ++i) {
    // The pack's own number is one behind all others.
    places_.at(pack_[i].number) = {Kind::packed, places_.size(), i};
    heads += std::to_string(pack_[i].number) + " " + std::to_string(values.size()) + " ";
    (values += pack_[i].value) += '\n';
  }
  const std::string entries =
      "/Type /ObjStm /N " + std::to_string(pack_.size()) + " /First " + std::to_string(heads.size());
  pack_.clear();
  places_.emplace_back();
  add(places_.size() - 1, stream(entries, packer_.pack(heads += values)));
}

std::string ObjectFile::table() const {
  constexpr std::size_t free_generation = 0xFFFF;  // object 0 heads the list of free numbers
  std::string rows;
  for (const Place& place : places_) {
    put_bytes(rows, static_cast<std::size_t>(place.kind), kind_bytes);
    put_bytes(rows, place.place, place_bytes);
    put_bytes(rows, place.kind == Kind::free ? free_generation : place.index, index_bytes);
  }
  return rows;
}

std::string ObjectFile::finish(std::size_t catalog, std::size_t info) && {
  close_pack();
  Fingerprint print;
  print.add(out_);
  const std::string id = print.hex();
  const std::size_t start = out_.size();
  const std::size_t number = places_.size();
  places_.push_back({Kind::plain, start, 0});
  const std::string entries = "/Type /XRef /Size " + std::to_string(places_.size()) + " /W [" +
                              std::to_string(kind_bytes) + " " + std::to_string(place_bytes) + " " +
                              std::to_string(index_bytes) + "] /Root " + std::to_string(catalog) + " 0 R /Info " +
                              std::to_string(info) + " 0 R /ID [<" + id + "> <" + id +
                              ">] /DecodeParms <</Predictor 12 /Columns " + std::to_string(row_bytes) + ">>";
  out_ += std::to_string(number) + " 0 obj\n" + stream(entries, packer_.pack(differences(table()))) +
          "\nendobj\nstartxref\n" + std::to_string(start) + "\n%%EOF\n";
  return std::move(out_);
}

}  // namespace soundsill::pdf
