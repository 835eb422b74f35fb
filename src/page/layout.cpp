#include "page/layout.h"

#include <algorithm>

#include "page/blocks.h"
#include "page/flow.h"
#include "page/running.h"
#include "page/workshop.h"

namespace soundsill::page {
namespace {

using document::Section;

struct Turn {
  const Section* section;
  SectionStyle style;
};

// In the template's order; sections that it does not name come last, as the document has them.
std::vector<Turn> turns(const document::Document& document, const Template& look) {
  std::vector<Turn> all;
  for (const SectionStyle& style : look.sections)
    for (const Section& section : document.sections)
      if (section.name == style.name) all.push_back({&section, style});
  for (const Section& section : document.sections) {
    const auto named = [&](const SectionStyle& style) { return style.name == section.name; };
    if (std::none_of(look.sections.begin(), look.sections.end(), named)) all.push_back({&section, {section.name}});
  }
  return all;
}

void lay(Workshop& shop, Flow& flow, const Turn& turn) {
  const SheetStyle& sheet = shop.look.sheet;
  const Milli whole = sheet.width - sheet.left - sheet.right;
  const Milli width = (whole - sheet.column_gap * (turn.style.columns - 1)) / turn.style.columns;
  const NodeId node = shop.node("Sect", 0);
  Strips strips = block_strips(shop, turn.section->blocks, {width, node});
  if (!turn.section->id.empty()) {
    if (strips.empty()) strips.emplace_back();
    strips.front().places.insert(strips.front().places.begin(), {turn.section->id, 0});
  }
  flow.section(strips, turn.style, shop.look.section_gap);
}

}  // namespace

Pages lay_out(const document::Document& document, const Template& look, const font::Faces& faces, Faults& faults) {
  Pages pages;
  pages.title = document.title;
  pages.author = document.author;
  pages.subject = document.subject;
  pages.language = document.language;
  pages.created = document.created;
  pages.source = document.source;
  Workshop shop(document, look, faces, faults, pages);
  shop.column_height = look.sheet.height - look.sheet.top - look.sheet.bottom;
  shop.node("Document", artifact);
  Flow flow(pages, look.sheet);
  for (const Turn& turn : turns(document, look)) lay(shop, flow, turn);
  flow.finish();
  // An id of something that printed nothing still leads somewhere.
  for (const std::string& id : shop.ids()) pages.destinations.try_emplace(id, Destination{0, look.sheet.top});
  put_running(shop);
  return pages;
}

}  // namespace soundsill::page
