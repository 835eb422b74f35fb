// The one place that looks into the records behind libharu's handles: their layout is no promise of the library, so
// each look is held by an assert in haru.cpp. For file.cpp alone; everybody else knows nothing of libharu.
#pragma once

#include <hpdf.h>

#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "pdf/syntax.h"

namespace soundsill::pdf::haru {

struct FreeDocument {
  void operator()(HPDF_Doc document) const { HPDF_Free(document); }
};
using Document = std::unique_ptr<HPDF_Doc_Rec, FreeDocument>;

/// An empty file that is told as `version`. Errors of the library are thrown as std::runtime_error; `owner` is what
/// `owner()` gives back from any of its dictionaries. Throws std::logic_error when the library that runs is not the one
/// whose headers were compiled.
[[nodiscard]] Document new_document(void* owner, HPDF_PDFVer version);

/// The library's calls on objects only note an error: throws std::runtime_error when one was noted.
void check(HPDF_Doc document);
/// The same, and when there is no object.
template <class T>
T checked(HPDF_Doc document, T object);

// Objects. Each function throws std::logic_error when the object is not of the kind that it takes.
[[nodiscard]] HPDF_Dict catalog(HPDF_Doc document);
[[nodiscard]] HPDF_Dict info(HPDF_Doc document);
[[nodiscard]] HPDF_Dict trailer(HPDF_Doc document);
[[nodiscard]] HPDF_Dict add_dictionary(HPDF_Doc document);  ///< a new one, in the table of objects
[[nodiscard]] HPDF_Dict add_stream(HPDF_Doc document);
[[nodiscard]] void* add_null(HPDF_Doc document);  ///< nothing but a number
[[nodiscard]] Id count(HPDF_Doc document);        ///< of the table, object 0 among them
[[nodiscard]] void* object(HPDF_Doc document, Id id);
[[nodiscard]] HPDF_Dict dictionary(HPDF_Doc document, Id id);
[[nodiscard]] HPDF_Page page(HPDF_Doc document, Id id);
[[nodiscard]] Id number_of(const void* object);  ///< in the table
[[nodiscard]] bool is_stream(const void* object);
[[nodiscard]] HPDF_Stream stream_of(HPDF_Dict dict);
[[nodiscard]] HPDF_Dict contents_of(HPDF_Page page);
[[nodiscard]] Id number_of_length(HPDF_Dict stream);  ///< the number of the object that holds the stream's length

/// What the library calls inside "<< ... >>" when it writes the dictionary.
void write_with(HPDF_Dict dict, HPDF_Dict_OnWriteFunc function);
[[nodiscard]] void* owner(HPDF_Dict dict);

// Bytes.
void write(HPDF_Stream stream, std::string_view bytes);
void each_block(HPDF_Stream stream, const std::function<void(std::string_view)>& use);
[[nodiscard]] std::string text_of(HPDF_Stream stream);
[[nodiscard]] std::string written(HPDF_Doc document, void* object);  ///< its value
[[nodiscard]] std::string saved(HPDF_Doc document);                  ///< the whole file, as the library writes it

[[noreturn]] void fail(HPDF_STATUS code, HPDF_STATUS detail);
template <class T>
T checked(HPDF_Doc document, T object) {
  check(document);
  if (object == nullptr) fail(HPDF_GetError(document), HPDF_GetErrorDetail(document));
  return object;
}

}  // namespace soundsill::pdf::haru
