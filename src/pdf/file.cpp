#include "pdf/file.h"

#include <hpdf.h>
#include <hpdf_doc.h>
#include <hpdf_version.h>

#include <stdexcept>
#include <unordered_map>
#include <unordered_set>
#include <vector>

#include "pdf/hash.h"
#include "pdf/object_file.h"
#include "pdf/pack.h"

// The records behind libharu's handles are used below, and their layout is no promise of the library.
static_assert(HPDF_VERSION_ID >= 20300 && HPDF_VERSION_ID < 20500, "try pdf/ with this version of libharu first");

namespace soundsill::pdf {

namespace {

[[noreturn]] void fail(HPDF_STATUS code, HPDF_STATUS detail) {
  throw std::runtime_error("libharu: error " + std::to_string(code) + ", detail " + std::to_string(detail));
}

extern "C" void on_haru_error(HPDF_STATUS code, HPDF_STATUS detail, void* /*data*/) { fail(code, detail); }

struct FreeDocument {
  void operator()(HPDF_Doc document) const { HPDF_Free(document); }
};
using Document = std::unique_ptr<HPDF_Doc_Rec, FreeDocument>;

std::string_view text_of(HPDF_Stream stream, HPDF_UINT block) {
  HPDF_UINT length = 0;
  const HPDF_BYTE* bytes = HPDF_MemStream_GetBufPtr(stream, block, &length);
  return {reinterpret_cast<const char*>(bytes), length};
}

struct FreeStream {
  void operator()(HPDF_Stream stream) const { HPDF_Stream_Free(stream); }
};
using Stream = std::unique_ptr<HPDF_Stream_Rec, FreeStream>;

std::string whole_text(HPDF_Stream stream) {
  std::string text;
  text.reserve(stream->size);
  const HPDF_UINT blocks = HPDF_MemStream_GetBufCount(stream);
  for (HPDF_UINT i = 0; i < blocks; ++i) text += text_of(stream, i);
  return text;
}

bool is_stream(const void* object) {
  const auto* dict = static_cast<const HPDF_Dict_Rec*>(object);
  return (dict->header.obj_class & HPDF_OCLASS_ANY) == HPDF_OCLASS_DICT && dict->stream != nullptr;
}

void write_to(HPDF_Stream stream, std::string_view bytes) {
  const HPDF_STATUS status =
      HPDF_Stream_Write(stream, reinterpret_cast<const HPDF_BYTE*>(bytes.data()), static_cast<HPDF_UINT>(bytes.size()));
  if (status != HPDF_OK) fail(status, 0);
}

}  // namespace

constexpr HPDF_UINT32 number_bits = 0x00FFFFFF;  // of obj_id; the others say what becomes of the object

struct File::Inside {
  Version version;
  Document document;
  Packer packer;
  std::unordered_map<HPDF_Dict, std::string> entries;  // what write_entries adds when a dictionary is written
  std::unordered_map<Id, std::string> light;           // dictionaries that stand in no object of libharu

  [[nodiscard]] HPDF_Dict at(Id id) const {
    const bool known = id > 0 && id < document->xref->entries->count;
    auto* dict = known ? static_cast<HPDF_Dict>(HPDF_Xref_GetEntry(document->xref, id)->obj) : nullptr;
    if (dict == nullptr || (dict->header.obj_class & HPDF_OCLASS_ANY) != HPDF_OCLASS_DICT)
      throw std::logic_error("object " + std::to_string(id) + " is no dictionary");
    return dict;
  }

  [[nodiscard]] HPDF_Page page_at(Id id) const {
    HPDF_Dict dict = at(id);
    if (dict->header.obj_class != (HPDF_OCLASS_DICT | HPDF_OSUBCLASS_PAGE))
      throw std::logic_error("object " + std::to_string(id) + " is no page");
    return dict;
  }

  /// libharu's calls on objects only note an error: ask for it.
  template <class T>
  T checked(T object) const {
    if (object == nullptr || HPDF_GetError(document.get()) != HPDF_OK)
      fail(HPDF_GetError(document.get()), HPDF_GetErrorDetail(document.get()));
    return object;
  }

  static Id number_of(HPDF_Dict dict) { return dict->header.obj_id & number_bits; }

  void append(HPDF_Dict dict, std::string_view text) {
    dict->write_fn = write_entries;
    entries[dict].append(text) += '\n';
  }

  void fill(HPDF_Dict dict, std::string_view bytes, Packing packing) {
    if (packing == Packing::deflate) {
      // Packed by us (faster than libharu would) and declared by us.
      append(dict, "/Filter /FlateDecode");
      write_to(dict->stream, packer.pack(bytes));
    } else {
      write_to(dict->stream, bytes);
    }
  }

  /// Called by libharu inside "<< ... >>". The error record leads back to us.
  static HPDF_STATUS write_entries(HPDF_Dict dict, HPDF_Stream stream) {
    const auto* self = static_cast<const Inside*>(dict->error->user_data);
    write_to(stream, self->entries.at(dict));
    return HPDF_OK;
  }

  /// The trailer comes last, so the stream already holds all that is to be identified.
  static HPDF_STATUS write_identifier(HPDF_Dict /*trailer*/, HPDF_Stream stream) {
    Fingerprint print;
    const HPDF_UINT blocks = HPDF_MemStream_GetBufCount(stream);
    for (HPDF_UINT i = 0; i < blocks; ++i) print.add(text_of(stream, i));
    const std::string hex = print.hex();
    write_to(stream, "/ID [<" + hex + "> <" + hex + ">]\n");
    return HPDF_OK;
  }

  [[nodiscard]] std::string save_plain();
  [[nodiscard]] std::string save_packed();
  [[nodiscard]] std::string value(Id id, void* object) const;
  [[nodiscard]] std::string stream_value(HPDF_Dict dict) const;
};

File::File(Version version) : in_(std::make_unique<Inside>()) {
  in_->version = version;
  in_->document.reset(HPDF_NewEx(on_haru_error, nullptr, nullptr, 0, in_.get()));
  if (!in_->document) throw std::bad_alloc();
  HPDF_Doc document = in_->document.get();
  document->pdf_version = version == Version::v1_4 ? HPDF_VER_14 : HPDF_VER_17;
  HPDF_Dict_RemoveElement(document->info, "Producer");  // libharu's own name
  document->trailer->write_fn = Inside::write_identifier;
}

File::~File() = default;

File::Version File::version() const { return in_->version; }

Id File::add() {
  HPDF_Doc document = in_->document.get();
  HPDF_Dict dict = in_->checked(HPDF_Dict_New(document->mmgr));
  if (HPDF_Xref_Add(document->xref, dict) != HPDF_OK) in_->checked<HPDF_Dict>(nullptr);
  return Inside::number_of(dict);
}

Id File::add_light() {
  // libharu's own way of saving knows only its own objects.
  if (in_->version == Version::v1_4) return add();
  HPDF_Doc document = in_->document.get();
  HPDF_Null number = in_->checked(HPDF_Null_New(document->mmgr));
  if (HPDF_Xref_Add(document->xref, number) != HPDF_OK) in_->checked<HPDF_Dict>(nullptr);
  const Id id = number->header.obj_id & number_bits;
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
  HPDF_Doc document = in_->document.get();
  HPDF_Dict dict = in_->checked(HPDF_DictStream_New(document->mmgr, document->xref));
  in_->append(dict, entries);
  in_->fill(dict, bytes, packing);
  return Inside::number_of(dict);
}

Id File::add_page(page::Milli width, page::Milli height) {
  HPDF_Page page = in_->checked(HPDF_AddPage(in_->document.get()));
  // libharu would print the size as rounded reals.
  HPDF_Dict_RemoveElement(page, "MediaBox");
  in_->append(page, "/MediaBox [0 0 " + number(width) + " " + number(height) + "]");
  return Inside::number_of(page);
}

void File::set_contents(Id page, std::string_view operators) {
  in_->fill(static_cast<HPDF_PageAttr>(in_->page_at(page)->attr)->contents, operators, Packing::deflate);
}

std::string File::font_name(Id page, Id font) {
  return in_->checked(HPDF_Page_GetLocalFontName(in_->page_at(page), in_->at(font)));
}

std::string File::image_name(Id page, Id image) {
  return in_->checked(HPDF_Page_GetXObjectName(in_->page_at(page), in_->at(image)));
}

Id File::add_bookmark(Id parent, std::string_view entries) {
  HPDF_Outline above = parent == 0 ? nullptr : in_->at(parent);
  HPDF_Outline item = in_->checked(HPDF_CreateOutline(in_->document.get(), above, "", nullptr));
  HPDF_Dict_RemoveElement(item, "Title");
  HPDF_Dict_RemoveElement(item, "Type");  // "Outlines", which is true of the root only
  in_->append(item, entries);
  return Inside::number_of(item);
}

void File::append_to_catalog(std::string_view entries) { in_->append(in_->document->catalog, entries); }

void File::append_to_info(std::string_view entries) { in_->append(in_->document->info, entries); }

std::string File::save() { return in_->version == Version::v1_4 ? in_->save_plain() : in_->save_packed(); }

/// libharu's own way: one object after the other, and a table of places in plain text.
std::string File::Inside::save_plain() {
  const HPDF_STATUS status = HPDF_SaveToStream(document.get());
  if (status != HPDF_OK) fail(status, 0);
  checked(document->stream);
  return whole_text(document->stream);
}

/// An object's value, as libharu writes it where it is libharu's.
std::string File::Inside::value(Id id, void* object) const {
  if (const auto own = light.find(id); own != light.end()) return "<<" + own->second + ">>";
  constexpr HPDF_UINT buffer_bytes = 4096;
  const Stream written(checked(HPDF_MemStream_New(document->mmgr, buffer_bytes)));
  if (const HPDF_STATUS status = HPDF_Obj_WriteValue(object, written.get(), nullptr); status != HPDF_OK)
    fail(status, 0);
  return whole_text(written.get());
}

/// A stream with its length in it; libharu would make that an object of its own.
std::string File::Inside::stream_value(HPDF_Dict dict) const {
  const std::string bytes = whole_text(dict->stream);
  const auto own = entries.find(dict);  // a page without marks has none
  return "<<" + (own == entries.end() ? "" : own->second) + "/Length " + std::to_string(bytes.size()) +
         ">>\nstream\r\n" + bytes + "\nendstream";
}

/// Objects without a stream are packed together, and so is the table of places: the tags of a packet are a thousand
/// small objects, and take a tenth of the room this way.
std::string File::Inside::save_packed() {
  checked(document.get());
  const HPDF_UINT count = document->xref->entries->count;
  ObjectFile file(packer, count);
  std::unordered_set<Id> lengths;
  for (HPDF_UINT i = 1; i < count; ++i) {
    void* object = HPDF_Xref_GetEntry(document->xref, i)->obj;
    if (!is_stream(object)) continue;
    auto* dict = static_cast<HPDF_Dict>(object);
    const void* length = HPDF_Dict_GetItem(dict, "Length", HPDF_OCLASS_NUMBER);
    lengths.insert(static_cast<const HPDF_Number_Rec*>(length)->header.obj_id & number_bits);
    file.add(i, stream_value(dict));
  }
  for (HPDF_UINT i = 1; i < count; ++i) {
    void* object = HPDF_Xref_GetEntry(document->xref, i)->obj;
    if (!is_stream(object) && !lengths.contains(i)) file.add_packed(i, value(i, object));
  }
  return std::move(file).finish(number_of(document->catalog), number_of(document->info));
}

}  // namespace soundsill::pdf
