#include "page/flow.h"

#include <algorithm>

#include "page/shapes.h"

namespace soundsill::page {

void Flow::new_page() {
  Page page;
  page.width = sheet_.width;
  page.height = sheet_.height;
  pages_.pages.push_back(std::move(page));
  y_ = top();
  white_ = 0;
  empty_ = true;
}

void Flow::finish() {
  if (pages_.pages.empty()) new_page();
}

std::size_t Flow::chain_end(const Strips& strips, std::size_t from) {
  std::size_t end = from;
  while (end + 1 < strips.size() && strips[end].keep) ++end;
  return end + 1;
}

// Strips go in by chains that stay together. A chain that does not even fit an empty column is cut where it must be.
Flow::Filled Flow::fill(const Strips& strips, std::size_t from, Milli room, bool must, bool elastic) {
  Filled filled;
  filled.next = from;
  const auto white = [&](std::size_t i) { return i == from ? 0 : std::max(strips[i - 1].after, strips[i].before); };
  const auto add = [&](std::size_t i, Milli y) {
    const bool head = i == from && strips[i].head != nullptr && i > 0 && strips[i - 1].head == strips[i].head;
    y += white(i);
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

void Flow::section(const Strips& strips, const SectionStyle& style, Milli gap) {
  if (pages_.pages.empty() || (style.new_page && !empty_)) new_page();
  if (!empty_) white_ = std::max(white_, gap);
  const Milli column = bottom() - top();
  Strips all;
  for (const Strip& strip : strips) {
    const Milli room = column - (strip.head ? strip.head->height : 0);
    if (strip.height <= room)
      all.push_back(strip);
    else
      append(all, cut_to(strip, room));
  }
  if (!all.empty()) in_columns(all, style.columns);
}

void Flow::in_columns(const Strips& strips, int columns) {
  const Milli whole = sheet_.width - sheet_.left - sheet_.right;
  const Milli width = (whole - sheet_.column_gap * (columns - 1)) / columns;
  for (std::size_t next = 0; next < strips.size();) {
    const Milli start = empty_ ? top() : y_ + std::max(white_, strips[next].before);
    const Milli room = bottom() - start;
    // All columns at a height: where the last one ends, and how far down they reach.
    const auto attempt = [&](Milli height, bool must, bool elastic) {
      std::vector<Filled> all;
      std::size_t at = next;
      for (int c = 0; c < columns && at < strips.size(); ++c) {
        all.push_back(fill(strips, at, height, must, elastic));
        at = all.back().next;
      }
      return all;
    };
    std::vector<Filled> filled = attempt(room, empty_, true);
    if (filled.back().next == strips.size() && columns > 1) {
      // The section ends here: columns of about the same height.
      Milli low = 0, high = room;
      while (high - low > points(1)) {
        const Milli middle = low + (high - low) / 2;
        const auto trial = attempt(middle, false, false);
        (trial.back().next == strips.size() ? high : low) = middle;
      }
      const auto even = attempt(high, false, false);
      if (even.back().next == strips.size()) filled = even;
    }
    if (filled.back().next == next) {
      new_page();
      continue;
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
    put(stand.lower > 0 ? strip.lower(stand.lower) : strip, x, y + stand.y);
  }
}

void Flow::put(const Strip& strip, Milli x, Milli y) {
  Strip moved;
  merge(moved, strip, x, y);
  const auto index = static_cast<std::int32_t>(pages_.pages.size() - 1);
  Page& page = pages_.pages.back();
  std::move(moved.marks.begin(), moved.marks.end(), std::back_inserter(page.marks));
  for (const auto& [id, from_top] : moved.places) pages_.destinations.try_emplace(id, Destination{index, from_top});
  for (const auto& [node, box] : moved.figures) {
    Node& figure = pages_.nodes[static_cast<std::size_t>(node)];
    figure.box = box;
    figure.box_page = index;
  }
}

}  // namespace soundsill::page
