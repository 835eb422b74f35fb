#include "pdf/haru.h"

#include <hpdf_doc.h>
#include <hpdf_version.h>

#include <cstddef>
#include <new>
#include <stdexcept>
#include <type_traits>

namespace soundsill::pdf::haru {

// What is taken for granted of the records, as far as a compiler can tell.
static_assert(HPDF_VERSION_ID >= 20300 && HPDF_VERSION_ID < 20500, "try pdf/ with this version of libharu first");
static_assert(offsetof(HPDF_Dict_Rec, header) == 0 && offsetof(HPDF_Null_Rec, header) == 0 &&
                  offsetof(HPDF_Number_Rec, header) == 0,
              "any object is looked at by its header first");
static_assert(std::is_same_v<decltype(HPDF_Dict_Rec::write_fn), HPDF_Dict_OnWriteFunc> &&
                  std::is_same_v<decltype(HPDF_Dict_Rec::stream), HPDF_Stream> &&
                  std::is_same_v<decltype(HPDF_PageAttr_Rec::contents), HPDF_Dict> &&
                  std::is_same_v<decltype(HPDF_Doc_Rec::pdf_version), HPDF_PDFVer>,
              "fields that are read or set are what they were");

namespace {

constexpr HPDF_UINT32 number_bits = 0x00FFFFFF;  // of obj_id; the others say what becomes of the object

void expect(bool holds, const char* what) {
  if (!holds) throw std::logic_error(std::string("libharu: ") + what);
}

extern "C" void on_haru_error(HPDF_STATUS code, HPDF_STATUS detail, void* /*data*/) { fail(code, detail); }

const HPDF_Obj_Header& header_of(const void* object) {
  expect(object != nullptr, "an object is not there");
  return *static_cast<const HPDF_Obj_Header*>(object);
}

bool is_dictionary(const void* object) { return (header_of(object).obj_class & HPDF_OCLASS_ANY) == HPDF_OCLASS_DICT; }

HPDF_Dict as_dictionary(void* object, const char* what) {
  expect(object != nullptr && is_dictionary(object), what);
  return static_cast<HPDF_Dict>(object);
}

template <class T>
T entered(HPDF_Doc document, T object) {
  checked(document, object);
  if (HPDF_Xref_Add(document->xref, object) != HPDF_OK) fail(HPDF_GetError(document), HPDF_GetErrorDetail(document));
  expect(haru::object(document, number_of(object)) == object, "an object does not stand where its number says");
  return object;
}

struct FreeStream {
  void operator()(HPDF_Stream stream) const { HPDF_Stream_Free(stream); }
};

}  // namespace

void fail(HPDF_STATUS code, HPDF_STATUS detail) {
  throw std::runtime_error("libharu: error " + std::to_string(code) + ", detail " + std::to_string(detail));
}

Document new_document(void* owner, HPDF_PDFVer version) {
  expect(std::string_view(HPDF_GetVersion()) == HPDF_VERSION_TEXT, "the library is another one than its headers");
  Document document(HPDF_NewEx(on_haru_error, nullptr, nullptr, 0, owner));
  if (!document) throw std::bad_alloc();
  document->pdf_version = version;
  expect(haru::owner(catalog(document.get())) == owner, "the error record does not lead back to whoever made the file");
  return document;
}

void check(HPDF_Doc document) {
  if (HPDF_GetError(document) != HPDF_OK) fail(HPDF_GetError(document), HPDF_GetErrorDetail(document));
}

HPDF_Dict catalog(HPDF_Doc document) { return as_dictionary(document->catalog, "there is no catalog"); }
HPDF_Dict info(HPDF_Doc document) { return as_dictionary(document->info, "there is no Info"); }
HPDF_Dict trailer(HPDF_Doc document) { return as_dictionary(document->trailer, "there is no trailer"); }

HPDF_Dict add_dictionary(HPDF_Doc document) { return entered(document, HPDF_Dict_New(document->mmgr)); }

HPDF_Dict add_stream(HPDF_Doc document) {
  HPDF_Dict dict = checked(document, HPDF_DictStream_New(document->mmgr, document->xref));
  expect(is_stream(dict), "a new stream is none");
  return dict;
}

void* add_null(HPDF_Doc document) { return entered(document, HPDF_Null_New(document->mmgr)); }

Id count(HPDF_Doc document) {
  expect(document->xref != nullptr && document->xref->entries != nullptr, "there is no table of objects");
  return document->xref->entries->count;
}

void* object(HPDF_Doc document, Id id) {
  expect(id > 0 && id < count(document), "the table of objects has no such number");
  const auto* entry = HPDF_Xref_GetEntry(document->xref, id);
  expect(entry != nullptr && entry->obj != nullptr && number_of(entry->obj) == id, "the table of objects has a hole");
  return entry->obj;
}

HPDF_Dict dictionary(HPDF_Doc document, Id id) {
  return as_dictionary(object(document, id), "an object is no dictionary");
}

HPDF_Page page(HPDF_Doc document, Id id) {
  HPDF_Dict dict = dictionary(document, id);
  expect(dict->header.obj_class == (HPDF_OCLASS_DICT | HPDF_OSUBCLASS_PAGE), "an object is no page");
  return dict;
}

Id number_of(const void* object) { return header_of(object).obj_id & number_bits; }

bool is_stream(const void* object) {
  return is_dictionary(object) && static_cast<const HPDF_Dict_Rec*>(object)->stream != nullptr;
}

HPDF_Stream stream_of(HPDF_Dict dict) {
  expect(is_stream(dict), "an object is no stream");
  return dict->stream;
}

HPDF_Dict contents_of(HPDF_Page page) {
  expect(page->attr != nullptr, "a page has no record of its own");
  HPDF_Dict contents = static_cast<HPDF_PageAttr>(page->attr)->contents;
  expect(HPDF_Dict_GetItem(page, "Contents", HPDF_OCLASS_DICT) == contents && is_stream(contents),
         "a page's contents are not where they were");
  return contents;
}

Id number_of_length(HPDF_Dict stream) {
  const void* length = HPDF_Dict_GetItem(stream, "Length", HPDF_OCLASS_NUMBER);
  expect(length != nullptr && number_of(length) != 0, "the length of a stream is no object of the table");
  return number_of(length);
}

void write_with(HPDF_Dict dict, HPDF_Dict_OnWriteFunc function) {
  expect(dict->write_fn == nullptr || dict->write_fn == function, "the library writes this dictionary itself");
  dict->write_fn = function;
}

void* owner(HPDF_Dict dict) {
  expect(dict->error != nullptr, "a dictionary has no error record");
  return dict->error->user_data;
}

void write(HPDF_Stream stream, std::string_view bytes) {
  const HPDF_STATUS status =
      HPDF_Stream_Write(stream, reinterpret_cast<const HPDF_BYTE*>(bytes.data()), static_cast<HPDF_UINT>(bytes.size()));
  if (status != HPDF_OK) fail(status, 0);
}

void each_block(HPDF_Stream stream, const std::function<void(std::string_view)>& use) {
  const HPDF_UINT blocks = HPDF_MemStream_GetBufCount(stream);
  for (HPDF_UINT i = 0; i < blocks; ++i) {
    HPDF_UINT length = 0;
    const HPDF_BYTE* bytes = HPDF_MemStream_GetBufPtr(stream, i, &length);
    use({reinterpret_cast<const char*>(bytes), length});
  }
}

std::string text_of(HPDF_Stream stream) {
  std::string text;
  text.reserve(stream->size);
  each_block(stream, [&](std::string_view block) { text += block; });
  expect(text.size() == stream->size, "the blocks of a stream are not all of it");
  return text;
}

std::string written(HPDF_Doc document, void* object) {
  constexpr HPDF_UINT buffer_bytes = 4096;
  const std::unique_ptr<HPDF_Stream_Rec, FreeStream> stream(
      checked(document, HPDF_MemStream_New(document->mmgr, buffer_bytes)));
  const HPDF_STATUS status = HPDF_Obj_WriteValue(object, stream.get(), nullptr);
  if (status != HPDF_OK) fail(status, 0);
  return text_of(stream.get());
}

std::string saved(HPDF_Doc document) {
  const HPDF_STATUS status = HPDF_SaveToStream(document);
  if (status != HPDF_OK) fail(status, 0);
  return text_of(checked(document, document->stream));
}

}  // namespace soundsill::pdf::haru
