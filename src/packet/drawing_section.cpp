// Serves packet/builder.h. The drawing: each structure to scale with the numbers of the findings, then what each
// further option does to it.
#include <algorithm>

#include "packet/builder.h"

namespace soundsill::document {
namespace {

using F = Words::Fill;

/// What the plan shows, without the words beside it.
bool same_shapes(const Scene& a, const Scene& b) {
  return std::equal(a.shapes.begin(), a.shapes.end(), b.shapes.begin(), b.shapes.end(),
                    [](const Shape& x, const Shape& y) {
                      return x.kind == y.kind && x.points == y.points && x.style == y.style && x.radius == y.radius;
                    });
}

struct DrawingPages {
  const Builder& b;
  std::vector<Block>& blocks;

  /// The number leads to the card, the work to its line of the estimate.
  [[nodiscard]] Table numbers(const SurveyedStructure& s) const {
    Table table;
    table.style = "facts";
    table.caption = b.say(Word::drawing_table_caption);
    table.row_heads = true;
    table.columns = {{b.say(Word::column_number), Column::Align::left, 1, true},
                     {b.say(Word::column_seen_where), Column::Align::left, 7, false},
                     {b.say(Word::column_answered_by), Column::Align::left, 4, false}};
    for (const Finding& f : b.house.findings)
      if (f.no && f.on(s))
        table.rows.push_back({"",
                              {{{std::to_string(*f.no), Run::Look::strong, card_id(*f.no)}},
                               text(b.title_of(f) + ", " + b.place_of(f)),
                               answers(f)}});
    return table;
  }

  [[nodiscard]] Runs answers(const Finding& f) const {
    Runs out;
    std::vector<std::string> said;
    for (const Line* w : b.answers_to(f)) {
      const bool first = out.empty();
      const std::string words = b.work_short(*w);
      if (std::find(said.begin(), said.end(), words) != said.end()) continue;
      said.push_back(words);
      if (!first) out.push_back({"; ", Run::Look::plain, {}});
      out.push_back({first ? capitalized(words) : words, Run::Look::plain,
                     !w->id.empty() && !b.in.apart ? line_id(w->id) : std::string{}});
    }
    return out;
  }

  void plan(const SurveyedStructure& s, std::size_t index) const {
    Drawing d;
    d.id = plan_id(index);
    d.scene = b.scene(s, b.main_treatment());
    Table table = numbers(s);
    std::vector<std::string> found;
    for (const Finding& f : b.house.findings)
      if (f.no && f.on(s)) found.push_back(std::to_string(*f.no));
    d.alt = b.say(Word::drawing_alt, F{"structure", s.name}, F{"walls", std::to_string(s.walls.size())},
                  F{"piers", std::to_string(s.piers.size())},
                  F{"findings", found.empty() ? "0" : in_words(b.words, found)});
    d.caption = text(b.say(Word::drawing_caption, F{"structure", b.stated(Topic::structure, s.name)},
                           F{"feet", b.words.shown(s.outside)}));
    blocks.emplace_back(std::move(d));
    if (!table.rows.empty()) blocks.emplace_back(std::move(table));
  }

  /// Each further option on the same plan. One that does the same as an earlier one says so.
  void option(std::size_t which) const {
    const Treatment& t = b.in.treatments[which];
    const std::string name = b.option_name(t);
    const std::size_t before = blocks.size();
    blocks.push_back(Heading{3, "drawing-option-" + std::to_string(which + 1),
                             text(b.say(Word::drawing_option_heading, F{"option", name})), true});
    const Builder quiet{b.in};  // what is compared is not stated
    bool drawn = false;
    std::optional<std::size_t> same;
    for (std::size_t i = 0; i < b.in.basis.survey.structures.size(); ++i) {
      const SurveyedStructure& s = b.in.basis.survey.structures[i];
      if (!s.drawn()) continue;
      Scene scene = quiet.scene(s, &t);
      if (same_shapes(scene, quiet.scene(s, nullptr))) continue;
      std::optional<std::size_t> like;
      for (std::size_t other = 0; other < which && !like; ++other)
        if (same_shapes(scene, quiet.scene(s, &b.in.treatments[other]))) like = other;
      if (like) {
        same = like;
        continue;
      }
      Drawing d;
      d.id = plan_id(i) + "-option-" + std::to_string(which + 1);
      d.scene = std::move(scene);
      // What is named on the first plan is not named again.
      std::erase_if(d.scene.labels, [](const Label& label) { return label.style != "dimension"; });
      std::erase_if(d.scene.shapes, [](const Shape& shape) { return shape.style == "mark"; });
      std::erase_if(d.scene.legend, [](const LegendEntry& entry) { return entry.style == "mark"; });
      d.alt = b.say(Word::drawing_option_alt, F{"structure", s.name}, F{"option", name});
      d.caption = text(b.say(Word::drawing_option_caption, F{"structure", s.name}, F{"option", name}));
      d.lesser = true;
      blocks.emplace_back(std::move(d));
      drawn = true;
    }
    if (drawn) return;
    blocks.resize(before, Paragraph{});  // a sentence needs no heading
    blocks.push_back(Paragraph{"body", text(same ? b.say(Word::drawing_option_same, F{"option", name},
                                                         F{"other", b.option_name(b.in.treatments[*same])})
                                                 : b.say(Word::drawing_option_none, F{"option", name}))});
  }
};

}  // namespace

Section Builder::drawing() const {
  Section out{"drawing", "drawing", {}};
  out.blocks.push_back(Heading{2, "drawing-heading", text(say(Word::drawing_heading)), true});
  const Builder b = noting(out.record);
  const DrawingPages pages{b, out.blocks};
  bool any = false;
  for (std::size_t i = 0; i < in.basis.survey.structures.size(); ++i) {
    const SurveyedStructure& s = in.basis.survey.structures[i];
    any = any || s.drawn();
    if (s.drawn())
      pages.plan(s, i);
    else
      out.blocks.push_back(
          Paragraph{"body", text(say(Word::drawing_not_drawn, F{"structure", b.stated(Topic::structure, s.name)}))});
  }
  if (!any || in.apart) return out;
  for (std::size_t which = 1; which < in.treatments.size(); ++which) pages.option(which);
  return out;
}

std::string Builder::place_link(const Finding& f) const {
  if (!f.no) return {};
  for (std::size_t i = 0; i < in.basis.survey.structures.size(); ++i) {
    const SurveyedStructure& s = in.basis.survey.structures[i];
    if (f.on(s) && s.drawn()) return plan_id(i) + "-" + std::to_string(*f.no);
  }
  return {};
}

std::string Builder::plan_link(const Line& w) const {
  for (std::size_t i = 0; i < in.basis.survey.structures.size(); ++i) {
    const SurveyedStructure& s = in.basis.survey.structures[i];
    if (s.drawn() && (w.in.empty() || s.name == w.in)) return plan_id(i);
  }
  return {};
}

}  // namespace soundsill::document
