#include "layout/running.h"

#include <algorithm>

#include "pages/shapes.h"
#include "setting/paragraph.h"

namespace soundsill::page {
namespace {

std::string filled(std::string words, std::string_view name, std::size_t number) {
  for (std::size_t at = 0; (at = words.find(name, at)) != std::string::npos;)
    words.replace(at, name.size(), std::to_string(number));
  return words;
}

class Runner {
 public:
  explicit Runner(Workshop& shop) : shop_(shop), sheet_(shop.look.sheet) {}

  void on(std::size_t index) {
    Page& page = shop_.pages.pages[index];
    put_draft(page);
    put(page, index, shop_.look.head, artifact_header);
    put(page, index, shop_.look.foot, artifact_footer);
  }

 private:
  // Under all else, so that every word stays readable.
  void put_draft(Page& page) {
    const std::string& word = shop_.document.draft;
    if (word.empty()) return;
    TextStyle style = shop_.text(shop_.look.draft);
    const Milli room = sheet_.width - sheet_.left - sheet_.right;
    const Milli wide = measure(shop_, word, style).whole;
    if (wide > room) style.size = milli(scaled(style.size, room, wide)) - 1;
    Strip strip;
    put_line(strip, document::text(word), style, sheet_.left, room, Align::center);
    const font::Face& face = shop_.face(style.face);
    const Milli capital = milli(scaled(style.size, face.cap_height(), face.units_per_em()));
    std::vector<Mark> under;
    for (const Milli part : {1, 3}) add(under, strip, page.height * part / 4 + capital / 2, artifact_header);
    page.marks.insert(page.marks.begin(), under.begin(), under.end());
  }

  void put_line(Strip& strip, const document::Runs& words, const TextStyle& style, Milli x, Milli width, Align align) {
    auto lines = set_lines(shop_, words, {&style, width, artifact});
    if (lines.size() > 1) lines.resize(1);
    if (lines.empty()) return;
    if (align == Align::right) x += width - lines[0].width;
    if (align == Align::center) x += (width - lines[0].width) / 2;
    for (Mark mark : lines[0].marks) {
      shift(mark, x, 0);
      strip.marks.push_back(std::move(mark));
    }
  }

  static void add(std::vector<Mark>& marks, const Strip& strip, Milli baseline, NodeId kind) {
    for (Mark mark : strip.marks) {
      shift(mark, 0, baseline);
      std::visit([&](auto& m) { m.node = kind; }, mark);
      marks.push_back(std::move(mark));
    }
  }

  [[nodiscard]] std::string words(const std::string& slot, std::size_t index) const {
    const auto found = shop_.document.running.find(slot);
    if (found == shop_.document.running.end()) return {};
    return filled(filled(found->second, "{page}", index + 1), "{pages}", shop_.pages.pages.size());
  }

  void put(Page& page, std::size_t index, const RunningStyle& look, NodeId kind) {
    const TextStyle& style = shop_.text(look.style);
    const bool head = kind == artifact_header;
    const std::string &draft = shop_.document.draft, left = words(look.left, index), right = words(look.right, index);
    document::Runs center = document::text(words(look.center, index));
    if (head && !draft.empty()) {
      if (!center[0].text.empty()) center[0].text.insert(0, "  ");
      center.insert(center.begin(), {draft, document::Run::Look::strong, {}});
    }
    const Milli whole = sheet_.width - sheet_.left - sheet_.right;
    Strip strip;
    // Each gets what it needs; when that is too much, the sides share what the middle leaves.
    const Milli gap = points(12), l = width_of(document::text(left), style), c = width_of(center, style),
                r = width_of(document::text(right), style);
    const bool middle = c > 1;
    const Milli side = !middle ? whole : (whole - c) / 2 - gap;
    const bool fits = !middle ? l + r + gap <= whole : std::max(l, r) <= side;
    const Milli most = fits ? side : !middle ? (whole - gap) / 2 : std::max(style.size * 4, side);
    put_line(strip, document::text(left), style, sheet_.left, most, Align::left);
    put_line(strip, center, style, sheet_.left, whole, Align::center);
    put_line(strip, document::text(right), style, sheet_.width - sheet_.right - most, most, Align::right);
    const Milli baseline = head ? look.baseline : page.height - look.baseline;
    if (look.rule > 0 && !strip.marks.empty()) {
      const Milli y = head ? look.rule_gap : -style.size - look.rule_gap;
      strip.marks.emplace_back(
          line_path({sheet_.left, y}, {sheet_.width - sheet_.right, y}, look.rule, look.rule_color));
    }
    add(page.marks, strip, baseline, kind);
  }

  [[nodiscard]] Milli width_of(const document::Runs& words, const TextStyle& style) {
    return measure(shop_, words, style).whole + 1;
  }

  Workshop& shop_;
  const SheetStyle& sheet_;
};

}  // namespace

void put_running(Workshop& shop) {
  Runner runner(shop);
  for (std::size_t i = 0; i < shop.pages.pages.size(); ++i) runner.on(i);
}

}  // namespace soundsill::page
