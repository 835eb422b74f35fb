#include "pdf/file.h"

#include <stdexcept>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "pdf/haru.h"
#include "pdf/hash.h"
#include "pdf/object_file.h"
#include "pdf/pack.h"

namespace soundsill::pdf {

struct File::Inside {
  Version version;
  haru::Document document;
  Packer packer;
  std::unordered_map<HPDF_Dict, std::string> entries;  // what write_entries adds when a dictionary is written
  std::unordered_map<Id, std::string> light;           // dictionaries that stand in no object of libharu

  [[nodiscard]] HPDF_Doc doc() const { return document.get(); }
  [[nodiscard]] HPDF_Dict at(Id id) const { return haru::dictionary(doc(), id); }

  void append(HPDF_Dict dict, std::string_view text) {
    haru::write_with(dict, write_entries);
    entries[dict].append(text) += '\n';
  }

  void fill(HPDF_Dict dict, std::string_view bytes, Packing packing) {
    if (packing == Packing::deflate) {
      // Packed by us (faster than libharu would) and declared by us.
      append(dict, "/Filter /FlateDecode");
      haru::write(haru::stream_of(dict), packer.pack(bytes));
    } else {
      haru::write(haru::stream_of(dict), bytes);
    }
  }

  /// Called by libharu inside "<< ... >>". The error record leads back to us.
  static HPDF_STATUS write_entries(HPDF_Dict dict, HPDF_Stream stream) {
    const auto* self = static_cast<const Inside*>(haru::owner(dict));
    haru::write(stream, self->entries.at(dict));
    return HPDF_OK;
  }

  /// The trailer comes last, so the stream already holds all that is to be identified.
  static HPDF_STATUS write_identifier(HPDF_Dict /*trailer*/, HPDF_Stream stream) {
    Fingerprint print;
    haru::each_block(stream, [&](std::string_view block) { print.add(block); });
    const std::string hex = print.hex();
    haru::write(stream, "/ID [<" + hex + "> <" + hex + ">]\n");
    return HPDF_OK;
  }

  [[nodiscard]] std::string save_plain();
  [[nodiscard]] std::string save_packed();
  [[nodiscard]] std::string value(Id id, void* object) const;
  [[nodiscard]] std::string stream_value(HPDF_Dict dict) const;
};

File::File(Version version) : in_(std::make_unique<Inside>()) {
  in_->version = version;
  in_->document = haru::new_document(in_.get(), version == Version::v1_4 ? HPDF_VER_14 : HPDF_VER_17);
  HPDF_Dict_RemoveElement(haru::info(in_->doc()), "Producer");  // libharu's own name
  haru::write_with(haru::trailer(in_->doc()), Inside::write_identifier);
}

File::~File() = default;

File::Version File::version() const { return in_->version; }

Id File::add() { return haru::number_of(haru::add_dictionary(in_->doc())); }

Id File::add_light() {
  // libharu's own way of saving knows only its own objects.
  if (in_->version == Version::v1_4) return add();
  const Id id = haru::number_of(haru::add_null(in_->doc()));
  in_->light[id];
  return id;
}

void File::append(Id id, std::string_view entries) {
  const auto own = in_->light.find(id);
  if (own == in_->light.end()) return in_->append(in_->at(id), entries);
  own->second.append(entries);
}

Id File::add_dictionary(std::string_view entries) {
  const Id id = add_light();
  append(id, entries);
  return id;
}

Id File::add_stream(std::string_view entries, std::string_view bytes, Packing packing) {
  HPDF_Dict dict = haru::add_stream(in_->doc());
  in_->append(dict, entries);
  in_->fill(dict, bytes, packing);
  return haru::number_of(dict);
}

Id File::add_page(page::Milli width, page::Milli height) {
  HPDF_Page page = haru::checked(in_->doc(), HPDF_AddPage(in_->doc()));
  // libharu would print the size as rounded reals.
  HPDF_Dict_RemoveElement(page, "MediaBox");
  in_->append(page, "/MediaBox [0 0 " + number(width) + " " + number(height) + "]");
  return haru::number_of(page);
}

void File::set_contents(Id page, std::string_view operators) {
  in_->fill(haru::contents_of(haru::page(in_->doc(), page)), operators, Packing::deflate);
}

std::string File::font_name(Id page, Id font) {
  return haru::checked(in_->doc(), HPDF_Page_GetLocalFontName(haru::page(in_->doc(), page), in_->at(font)));
}

std::string File::image_name(Id page, Id image) {
  return haru::checked(in_->doc(), HPDF_Page_GetXObjectName(haru::page(in_->doc(), page), in_->at(image)));
}

Id File::add_bookmark(Id parent, std::string_view entries) {
  HPDF_Outline above = parent == 0 ? nullptr : in_->at(parent);
  HPDF_Outline item = haru::checked(in_->doc(), HPDF_CreateOutline(in_->doc(), above, "", nullptr));
  HPDF_Dict_RemoveElement(item, "Title");
  HPDF_Dict_RemoveElement(item, "Type");  // "Outlines", which is true of the root only
  in_->append(item, entries);
  return haru::number_of(item);
}

void File::append_to_catalog(std::string_view entries) { in_->append(haru::catalog(in_->doc()), entries); }

void File::append_to_info(std::string_view entries) { in_->append(haru::info(in_->doc()), entries); }

std::string File::save() { return in_->version == Version::v1_4 ? in_->save_plain() : in_->save_packed(); }

/// libharu's own way: one object after the other, and a table of places in plain text.
std::string File::Inside::save_plain() { return haru::saved(doc()); }

/// An object's value, as libharu writes it where it is libharu's.
std::string File::Inside::value(Id id, void* object) const {
  if (const auto own = light.find(id); own != light.end()) return "<<" + own->second + ">>";
  return haru::written(doc(), object);
}

/// A stream with its length in it; libharu would make that an object of its own.
std::string File::Inside::stream_value(HPDF_Dict dict) const {
  const std::string bytes = haru::text_of(haru::stream_of(dict));
  const auto own = entries.find(dict);  // a page without marks has none
  return "<<" + (own == entries.end() ? "" : own->second) + "/Length " + std::to_string(bytes.size()) +
         ">>\nstream\r\n" + bytes + "\nendstream";
}

/// Objects without a stream are packed together, and so is the table of places: the tags of a packet are a thousand
/// small objects, and take a tenth of the room this way.
std::string File::Inside::save_packed() {
  haru::check(doc());
  const Id count = haru::count(doc());
  ObjectFile file(packer, count);
  std::unordered_set<Id> lengths;
  for (Id i = 1; i < count; ++i) {
    void* object = haru::object(doc(), i);
    if (!haru::is_stream(object)) continue;
    auto* dict = static_cast<HPDF_Dict>(object);
    lengths.insert(haru::number_of_length(dict));
    file.add(i, stream_value(dict));
  }
  for (Id i = 1; i < count; ++i) {
    void* object = haru::object(doc(), i);
    if (!haru::is_stream(object) && !lengths.contains(i)) file.add_packed(i, value(i, object));
  }
  return std::move(file).finish(haru::number_of(haru::catalog(doc())), haru::number_of(haru::info(doc())));
}

}  // namespace soundsill::pdf
