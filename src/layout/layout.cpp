#include "layout/layout.h"

#include <algorithm>

#include "layout/blocks.h"
#include "layout/flow.h"
#include "layout/running.h"
#include "setting/workshop.h"

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

bool stands_across(const document::Block& block, const std::vector<Across>& kinds) {
  const auto any = [&](Across kind) { return std::find(kinds.begin(), kinds.end(), kind) != kinds.end(); };
  if (const auto* heading = std::get_if<document::Heading>(&block.kind))
    return heading->level <= 2 && any(Across::headings);
  if (std::holds_alternative<document::Table>(block.kind)) return any(Across::tables);
  if (std::holds_alternative<document::Drawing>(block.kind)) return any(Across::drawings);
  if (std::holds_alternative<document::Card>(block.kind)) return any(Across::cards);
  if (std::holds_alternative<document::Photos>(block.kind)) return any(Across::photos);
  return std::holds_alternative<document::Figures>(block.kind) && any(Across::figures);
}

// A section becomes parts: blocks in its columns, and between them blocks as wide as the page.
std::vector<Part> parts_of(Workshop& shop, const Turn& turn) {
  const SheetStyle& sheet = shop.look.sheet;
  const Milli whole = sheet.width - sheet.left - sheet.right;
  const int columns = turn.style.columns;
  const Milli narrow = (whole - sheet.column_gap * (columns - 1)) / columns;
  const NodeId node = shop.node("Sect", 0);
  std::vector<Part> parts(1);
  parts[0].columns = columns;
  const auto& blocks = turn.section->blocks;
  const auto across = [&](std::size_t i) { return i < blocks.size() && stands_across(blocks[i], turn.style.across); };
  for (std::size_t i = 0; i < blocks.size(); ++i) {
    const document::Block& block = blocks[i];
    // A heading goes with what it heads.
    const bool heads = std::holds_alternative<document::Heading>(block.kind) && across(i + 1);
    const int wanted = columns > 1 && (across(i) || heads) ? 1 : columns;
    if (parts.back().columns != wanted) parts.push_back({{}, wanted});
    append(parts.back().strips, block_strips(shop, block, i + 1 < blocks.size() ? &blocks[i + 1] : nullptr,
                                             {wanted == 1 ? whole : narrow, node}));
  }
  std::erase_if(parts, [](const Part& part) { return part.strips.empty(); });
  if (turn.section->id.empty()) return parts;
  if (parts.empty()) parts.push_back({Strips(1), 1});
  auto& places = parts.front().strips.front().places;
  places.insert(places.begin(), {turn.section->id, 0});
  return parts;
}

struct Laid {
  SectionStyle style;
  std::vector<Part> parts;
};

// White that may be taken away when the last page of a run of sections would hold next to nothing.
constexpr int whites[] = {85, 70};

// Sections from one new page to the next: with less white when that spares a page that is nearly empty.
int white_for(const std::vector<Laid>& all, std::size_t from, std::size_t to, const Template& look) {
  const auto attempt = [&](int percent) {
    Flow flow(nullptr, look.sheet, percent);
    for (std::size_t i = from; i < to; ++i) flow.section(all[i].parts, all[i].style, look.section_gap);
    return std::pair{flow.count(), flow.filled()};
  };
  const auto [pages, filled] = attempt(100);
  if (pages < 2 || filled > (look.sheet.height - look.sheet.top - look.sheet.bottom) / 5) return 100;
  for (const int percent : whites)
    if (attempt(percent).first < pages) return percent;
  return 100;
}

void flow_all(Pages& pages, const std::vector<Laid>& all, const Template& look) {
  Flow flow(&pages, look.sheet, 100);
  for (std::size_t from = 0; from < all.size();) {
    std::size_t to = from + 1;
    while (to < all.size() && !all[to].style.new_page) ++to;
    flow.set_white(white_for(all, from, to, look));
    for (; from < to; ++from) flow.section(all[from].parts, all[from].style, look.section_gap);
  }
  flow.finish();
}

Pages begun(const document::Document& document) {
  Pages pages;
  pages.title = document.title;
  pages.author = document.author;
  pages.subject = document.subject;
  pages.language = document.language;
  pages.created = document.created;
  pages.source = document.source;
  return pages;
}

}  // namespace

Pages lay_out(const document::Document& document, const Template& look, const font::Faces& faces, Faults& faults,
              const Hyphens* hyphens) {
  Pages pages = begun(document);
  Workshop shop(document, look, faces, faults, pages, hyphens);
  shop.column_height = look.sheet.height - look.sheet.top - look.sheet.bottom;
  shop.node("Document", artifact);
  std::vector<Laid> all;
  for (const Turn& turn : turns(document, look)) all.push_back({turn.style, parts_of(shop, turn)});
  flow_all(pages, all, look);
  // An id of something that printed nothing still leads somewhere.
  for (const std::string& id : shop.ids()) pages.destinations.try_emplace(id, Destination{0, look.sheet.top});
  put_running(shop);
  return pages;
}

Pages on_one_sheet(const std::vector<document::Block>& blocks, const document::Document& document, const Template& look,
                   const font::Faces& faces, Faults& faults, const std::set<std::string, std::less<>>& ids) {
  Pages pages = begun(document);
  Workshop shop(document, look, faces, faults, pages, nullptr);
  for (const std::string& id : ids) shop.know(id);
  const SheetStyle& sheet = look.sheet;
  shop.column_height = sheet.height - sheet.top - sheet.bottom;
  shop.node("Document", artifact);
  const Strip whole = stacked(block_strips(shop, blocks, {sheet.width - sheet.left - sheet.right, 0}));
  SheetStyle all = sheet;
  all.top = all.bottom = all.left = all.right = points(6);
  all.width = sheet.width - sheet.left - sheet.right + 2 * points(6);
  all.height = whole.height + 2 * points(6);
  Flow flow(&pages, all, 100);
  flow.section({{{whole}, 1}}, {}, 0);
  flow.finish();
  return pages;
}

}  // namespace soundsill::page
