#include "layout/flow.h"

#include <algorithm>

#include "pages/shapes.h"

namespace soundsill::page {

void Flow::new_page() {
  ++count_;
  y_ = top();
  white_ = 0;
  empty_ = true;
  if (!pages_) return;
  Page page;
  page.width = sheet_.width;
  page.height = sheet_.height;
  pages_->pages.push_back(std::move(page));
}

void Flow::finish() {
  if (count_ == 0) new_page();
}

std::size_t Flow::chain_end(const Strips& strips, std::size_t from) {
  std::size_t end = from;
  while (end + 1 < strips.size() && strips[end].keep) ++end;
  return end + 1;
}

// Strips go in by chains that stay together. A chain that does not even fit an empty column is cut where it must be.
Flow::Filled Flow::fill(const Strips& strips, std::size_t from, Milli room, bool must, bool elastic) const {
  Filled filled;
  filled.next = from;
  const auto add = [&](std::size_t i, Milli y) {
    const bool head = i == from && strips[i].head != nullptr && i > 0 && strips[i - 1].head == strips[i].head;
    if (i > from) y += between(strips[i - 1], strips[i]);
    if (head) y += strips[i].head->height;
    filled.stands.push_back({i, y, head});
    filled.height = y + strips[i].height;
    filled.next = i + 1;
    if (elastic) filled.give += strips[i].give;
  };
  while (filled.next < strips.size()) {
    const Filled before = filled;
    const std::size_t end = chain_end(strips, filled.next);
    for (std::size_t i = filled.next; i < end; ++i) add(i, filled.height);
    if (filled.height - filled.give <= room) continue;
    filled = before;
    if (!filled.stands.empty() || !must) break;
    // Alone and still too tall: strip by strip.
    for (std::size_t i = filled.next; i < end; ++i) {
      Filled last = filled;
      add(i, filled.height);
      if (filled.height > room && !last.stands.empty()) return last;
    }
  }
  squeeze(strips, filled, room);
  return filled;
}

// What is too much is taken from all photos of the column alike.
void Flow::squeeze(const Strips& strips, Filled& filled, Milli room) {
  std::int64_t over = std::int64_t{filled.height} - room, give = filled.give;
  if (over <= 0 || give <= 0) return;
  Milli up = 0;
  for (Stand& stand : filled.stands) {
    stand.y -= up;
    const Milli own = strips[stand.strip].give;
    if (own <= 0 || give <= 0) continue;
    stand.lower = std::min(own, milli((over * own + give - 1) / give));
    up += stand.lower;
    over -= stand.lower;
    give -= own;
  }
  filled.height -= up;
}

Milli Flow::height_with_white(const Strips& strips) const {
  Milli height = 0;
  for (std::size_t i = 0; i < strips.size(); ++i)
    height += strips[i].height + (i > 0 ? between(strips[i - 1], strips[i]) : 0);
  return height;
}

void Flow::section(const std::vector<Part>& parts, const SectionStyle& style, Milli gap) {
  if (count_ == 0 || (style.new_page && !empty_)) new_page();
  if (!empty_) white_ = std::max(white_, gap);
  if (style.together && !empty_ && pages_with(parts) > 0) {
    Flow fresh(nullptr, sheet_, percent_);
    fresh.new_page();
    if (fresh.pages_with(parts) == 0) new_page();
  }
  lay(parts);
}

int Flow::pages_with(const std::vector<Part>& parts) const {
  Flow trial = *this;
  trial.pages_ = nullptr;
  trial.lay(parts);
  return trial.count_ - count_;
}

void Flow::lay(const std::vector<Part>& parts) {
  const Milli column = bottom() - top();
  Strips lead;
  for (std::size_t p = 0; p < parts.size(); ++p) {
    const Strips& given = parts[p].strips;
    const auto room = [&](const Strip& strip) { return column - (strip.head ? strip.head->height : 0); };
    const bool fits = std::all_of(given.begin(), given.end(), [&](const Strip& s) { return s.height <= room(s); });
    const bool may_lead = p + 1 < parts.size() && parts[p].columns == 1 && parts[p + 1].columns > 1;
    if (fits && !may_lead) {  // the rule; what follows copies
      if (!given.empty()) in_columns(given, parts[p].columns, lead);
      lead.clear();
      continue;
    }
    Strips all;
    for (const Strip& strip : given)
      if (strip.height <= room(strip))
        all.push_back(strip);
      else
        append(all, cut_to(strip, room(strip)));
    // What stays with columns that follow leads them.
    Strips next_lead;
    if (may_lead)
      while (!all.empty() && all.back().keep) {
        next_lead.insert(next_lead.begin(), std::move(all.back()));
        all.pop_back();
      }
    if (!all.empty()) in_columns(all, parts[p].columns, lead);
    lead = std::move(next_lead);
  }
  if (!lead.empty()) in_columns(lead, 1, {});
}

// All columns as tall as the room; where what is left ends on this page, columns of about the same height.
std::vector<Flow::Filled> Flow::columns_at(const Strips& strips, std::size_t next, int columns, Milli room,
                                           bool must) const {
  const auto attempt = [&](Milli height, bool sure, bool elastic) {
    std::vector<Filled> all;
    std::size_t at = next;
    for (int c = 0; c < columns && at < strips.size(); ++c) {
      all.push_back(fill(strips, at, height, sure && c == 0, elastic));
      at = all.back().next;
    }
    return all;
  };
  std::vector<Filled> filled = attempt(room, must, true);
  if (filled.back().next < strips.size() || columns == 1) return filled;
  Milli low = 0, high = room;
  while (high - low > points(1)) {
    const Milli middle = low + (high - low) / 2;
    const auto trial = attempt(middle, false, false);
    (trial.back().next == strips.size() ? high : low) = middle;
  }
  auto even = attempt(high, false, false);
  return even.back().next == strips.size() ? even : filled;
}

void Flow::in_columns(const Strips& strips, int columns, const Strips& lead) {
  const Milli whole = sheet_.width - sheet_.left - sheet_.right;
  const Milli width = (whole - sheet_.column_gap * (columns - 1)) / columns;
  bool led = lead.empty();
  for (std::size_t next = 0; next < strips.size();) {
    const Strip& first = led ? strips[next] : lead.front();
    Milli start = empty_ ? top() : y_ + white(std::max(white_, first.before));
    const Milli above = led ? 0 : height_with_white(lead) + between(lead.back(), strips[next]);
    const std::vector<Filled> filled = columns_at(strips, next, columns, bottom() - start - above, empty_ && led);
    if (filled.back().next == next && empty_) {  // not even below the lead alone: the lead stays behind
      in_columns(lead, 1, {});
      led = true;
      continue;
    }
    if (filled.back().next == next) {
      new_page();
      continue;
    }
    if (!led) {
      Milli y = start;
      for (std::size_t i = 0; i < lead.size(); ++i) {
        if (i > 0) y += between(lead[i - 1], lead[i]);
        put(lead[i], sheet_.left, y);
        y += lead[i].height;
      }
      start += above;
      led = true;
    }
    Milli deepest = 0;
    for (std::size_t c = 0; c < filled.size(); ++c) {
      const Milli x = sheet_.left + milli(static_cast<std::int64_t>(c)) * (width + sheet_.column_gap);
      place(strips, filled[c], x, start);
      deepest = std::max(deepest, filled[c].height);
    }
    next = filled.back().next;
    y_ = start + deepest;
    white_ = strips[next - 1].after;
    empty_ = false;
    if (next < strips.size()) new_page();
  }
}

void Flow::place(const Strips& strips, const Filled& filled, Milli x, Milli y) {
  for (const Stand& stand : filled.stands) {
    const Strip& strip = strips[stand.strip];
    if (stand.with_head) put(*strip.head, x, y + stand.y - strip.head->height);
    if (stand.lower > 0)
      put(strip.lower(stand.lower), x, y + stand.y);
    else
      put(strip, x, y + stand.y);
  }
}

void Flow::put(const Strip& strip, Milli x, Milli y) {
  if (!pages_) return;
  Strip moved;
  merge(moved, strip, x, y);
  const auto index = static_cast<std::int32_t>(pages_->pages.size() - 1);
  Page& page = pages_->pages.back();
  std::move(moved.marks.begin(), moved.marks.end(), std::back_inserter(page.marks));
  for (const auto& [id, from_top] : moved.places) pages_->destinations.try_emplace(id, Destination{index, from_top});
  for (const auto& [node, box] : moved.figures) {
    Node& figure = pages_->nodes[static_cast<std::size_t>(node)];
    figure.box = box;
    figure.box_page = index;
  }
}

}  // namespace soundsill::page
