#include "pdf/links.h"

#include <stdexcept>

#include "source/concat.h"
#include "source/markup.h"

namespace soundsill::pdf {

namespace {

/// An address has ASCII only; all else is escaped byte by byte, as browsers do.
std::string escaped_address(std::string_view address) {
  std::string out;
  for (const char c : address) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte > ' ' && byte < 0x7F) {
      out += c;
    } else {
      out += '%';
      out += "0123456789ABCDEF"[byte >> 4U];
      out += "0123456789ABCDEF"[byte & 0xFU];
    }
  }
  return out;
}

/// To the nearest point: that is finer than a finger, and than where a reader begins to show a page.
std::int64_t whole(std::int64_t thousandths) { return divide(thousandths, 1000) * 1000; }

page::Box rounded(const page::Box& box) {
  const auto point = [](std::int64_t n) { return static_cast<page::Milli>(whole(n)); };
  const page::Milli left = point(box.x), top = point(box.y);
  return {left, top, point(std::int64_t{box.x} + box.width) - left, point(std::int64_t{box.y} + box.height) - top};
}

/// "[5 0 R/XYZ null 700 null]": the top of the place, with the reader's own zoom.
std::string destination(const page::Pages& pages, const std::vector<Id>& page_ids, const std::string& key) {
  const auto found = pages.destinations.find(key);
  if (found == pages.destinations.end())
    throw std::invalid_argument("a link or bookmark leads to `" + key + "`, which is not there");
  const auto page = static_cast<std::size_t>(found->second.page);
  const std::int64_t top = std::int64_t{pages.pages[page].height} - found->second.y;
  return "[" + reference(page_ids[page]) + "/XYZ null " + number(whole(top)) + " null]";
}

}  // namespace

Id add_link(File& file, Tags& tags, const page::Pages& pages, const std::vector<Id>& page_ids, int page,
            const page::LinkMark& mark) {
  const Id id = file.add_light();
  const int key = tags.add_link(mark.node, page, id);
  const page::Milli height = pages.pages[static_cast<std::size_t>(page)].height;
  constexpr const char* printed = "/F 4";  // archives ask that an annotation prints; a link shows nothing
  std::string entries =
      concat({"/Type/Annot/Subtype/Link", printed, "/Border[0 0 0]/Rect", rectangle(rounded(mark.box), height),
              "/StructParent ", std::to_string(key), "/Contents", text_string(mark.description)});
  if (is_address(mark.target))
    entries += "/A<</S/URI/URI" + literal(escaped_address(mark.target)) + ">>";
  else
    entries += "/Dest" + destination(pages, page_ids, mark.target);
  file.append(id, entries);
  return id;
}

void add_bookmarks(File& file, const page::Pages& pages, const std::vector<Id>& page_ids) {
  struct Open {
    int level;
    Id id;
  };
  std::vector<Open> above{{0, 0}};
  for (const page::Bookmark& mark : pages.bookmarks) {
    while (above.size() > 1 && above.back().level >= mark.level) above.pop_back();
    const Id id = file.add_bookmark(above.back().id, "/Title " + text_string(mark.title) + " /Dest " +
                                                         destination(pages, page_ids, mark.destination));
    above.push_back({mark.level, id});
  }
}

}  // namespace soundsill::pdf
