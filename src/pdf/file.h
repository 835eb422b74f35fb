// The file under construction. libharu keeps its pages, resources, bookmarks and object table; it is known only in
// file.cpp and haru.cpp. What stands inside our own objects is handed over as PDF text, so that numbers come out as
// integers say.
#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "pdf/syntax.h"

namespace soundsill::pdf {

class File {
 public:
  enum class Version { v1_4, v1_7 };
  explicit File(Version version);
  ~File();
  File(const File&) = delete;
  File& operator=(const File&) = delete;
  [[nodiscard]] Version version() const;

  /// Takes a number in the object table; the entries of the dictionary may follow later.
  Id add();
  /// The same for a dictionary that libharu itself is never asked about, as a font is: much lighter.
  Id add_light();
  /// Adds entries ("/Type /Font /W [...]") to an object of ours or of libharu.
  void append(Id id, std::string_view entries);
  Id add_dictionary(std::string_view entries);

  enum class Packing { none, deflate };
  Id add_stream(std::string_view entries, std::string_view bytes, Packing packing);

  Id add_page(page::Milli width, page::Milli height);
  void set_contents(Id page, std::string_view operators);
  /// Enters a font or an image into the resources of a page and gives its name there ("F1").
  [[nodiscard]] std::string font_name(Id page, Id font);
  [[nodiscard]] std::string image_name(Id page, Id image);

  /// `parent` 0 is the root. The entries hold /Title and /Dest.
  Id add_bookmark(Id parent, std::string_view entries);
  void append_to_catalog(std::string_view entries);
  void append_to_info(std::string_view entries);

  /// Writes the whole file, with an /ID made from all that comes before it. To be called once.
  [[nodiscard]] std::string save();

 private:
  struct Inside;
  std::unique_ptr<Inside> in_;
};

}  // namespace soundsill::pdf
