// Serves packet/builder.h. One card for each finding, grouped by what to do; live and past evidence never stand under
// one heading.
#include "packet/builder.h"

namespace soundsill::document {
namespace {

using F = Words::Fill;
constexpr Word group_headings[] = {Word::group_live,   Word::group_active,    Word::group_open,  Word::group_past,
                                   Word::group_damage, Word::group_condition, Word::group_closed};
constexpr std::string_view tones[] = {"active", "active", "open", "past", "damage", "condition", "neutral"};

Facts facts_of(const Builder& b, const Finding& f) {
  Facts out;
  out.columns = 2;
  const auto put = [&](Word name, std::string value) {
    if (!value.empty()) out.facts.push_back({b.say(name), text(std::move(value))});
  };
  const std::string no = std::to_string(*f.no);
  if (const std::string where = b.place_of(f); !where.empty())
    out.facts.push_back({b.say(Word::fact_where), {{where, Run::Look::plain, b.place_link(f)}}});
  const auto seen = b.seen_on(f);
  put(Word::fact_seen_on, seen ? b.words.shown(*seen) : std::string{});
  put(Word::fact_signs, b.stated(Topic::signs, in_words(b.words, f.signs), no));
  put(Word::fact_basis, b.stated(Topic::basis, in_words(b.words, f.basis), no));
  if (f.earlier_treatment && f.earlier_treatment->visible_said) {
    std::string earlier = b.say(f.earlier_treatment->visible ? Word::earlier_visible : Word::earlier_not_visible);
    if (!f.earlier_treatment->papers.empty())
      earlier += "; " + b.say(Word::earlier_papers, F{"papers", f.earlier_treatment->papers});
    put(Word::fact_earlier, earlier);
  }
  if (f.damage_seen && !*f.damage_seen) put(Word::fact_damage, b.say(Word::damage_none));
  if (f.holes) put(Word::fact_holes, b.say(Word::holes_across, F{"size", print(*f.holes)}));
  std::vector<std::string> readings;
  for (const resolved::Reading& r : f.moisture)
    if (!r.where.empty() && r.percent)
      readings.push_back(
          b.stated(Topic::moisture,
                   b.say(Word::moisture_value, F{"percent", shortest(r.percent->value, 1)}, F{"where", r.where}), no));
  put(Word::fact_moisture, in_words(b.words, readings));
  put(Word::fact_wood, b.stated(Topic::wood, f.wood, no));
  return out;
}

/// Each answer links to its line of the estimate.
void answers(const Builder& b, const Finding& f, std::vector<Block>& blocks) {
  Facts out;
  Runs by, settled;
  std::vector<std::string> said;
  for (const Line* w : b.answers_to(f)) {
    if (!by.empty()) by.push_back({"; ", Run::Look::plain, {}});
    by.push_back(
        {b.answer_sentence(*w), Run::Look::plain, !w->id.empty() && !b.in.apart ? line_id(w->id) : std::string{}});
    const std::string when = b.settled_when(*w);
    if (std::find(said.begin(), said.end(), when) != said.end()) continue;
    said.push_back(when);
    settled.push_back({(settled.empty() ? "" : "; ") + when, Run::Look::plain, {}});
  }
  if (by.empty()) return;
  out.facts.push_back({b.say(Word::fact_answered_by), by});
  out.facts.push_back({b.say(Word::fact_settled_when), settled});
  blocks.emplace_back(std::move(out));
}

int hundredths(const Percent& p) { return static_cast<int>((p.value * Ratio(100)).rounded()); }

/// Where on the part that is shown a point lies, in words: one of nine fields.
Word spot_of(const PhotoPart& part, const Spot& at) {
  const auto third = [](int place, int from, int size) {
    return std::clamp((place - from) * 3 / std::max(size, 1), 0, 2);
  };
  const int field = third(at.y, part.corner.y, part.height) * 3 + third(at.x, part.corner.x, part.width);
  return static_cast<Word>(static_cast<int>(Word::spot_1) + field);
}

/// What a photo shows and what is drawn on it. An arrow is where it points, a circle is where its middle lies.
std::string signed_words(const Words& words, const Photo& photo) {
  std::vector<std::string> all;
  for (const PhotoSign& sign : photo.signs) {
    const bool arrow = sign.kind == PhotoSign::Kind::arrow;
    all.push_back(words.say(arrow ? Word::photo_arrow : Word::photo_circle,
                            {{"spot", words.say(spot_of(photo.part, arrow ? sign.to : sign.from))}}));
  }
  const std::string shows = photo.alt.ends_with('.') ? photo.alt.substr(0, photo.alt.size() - 1) : photo.alt;
  return words.say(Word::photo_signed, {{"shows", shows}, {"signs", in_words(words, all)}});
}

}  // namespace

Photos Builder::photo_row(const std::vector<resolved::Photo>& list, std::map<std::string, std::string>& bytes) const {
  Photos row;
  for (const resolved::Photo& p : list) {
    const auto found = in.photos.find(p.file);
    if (p.file.empty() || p.shows.empty() || found == in.photos.end()) continue;
    bytes[p.file] = found->second;
    Photo photo{p.file, p.shows, typed(p.shows)};
    photo.lang = typed_language();
    if (p.crop)
      photo.part = {
          {hundredths(p.crop->x), hundredths(p.crop->y)}, hundredths(p.crop->width), hundredths(p.crop->height)};
    for (const resolved::PhotoMark& m : p.marks)
      photo.signs.push_back({m.kind == PhotoMarkKind::arrow ? PhotoSign::Kind::arrow : PhotoSign::Kind::circle,
                             {hundredths(m.from.x), hundredths(m.from.y)},
                             {hundredths(m.to.x), hundredths(m.to.y)}});
    if (!photo.signs.empty()) photo.alt = signed_words(in.english ? *in.english : words, photo);
    row.photos.push_back(std::move(photo));
  }
  return row;
}

Section Builder::cards(std::map<std::string, std::string>& photos) const {
  Section out{"cards", "findings", {}};
  const Builder b = noting(out.record);
  out.blocks.push_back(Heading{2, "findings-heading", text(say(Word::cards_heading)), true});
  if (house.findings.empty())
    out.blocks.push_back(Paragraph{"body", text(say(Word::cards_none, F{"date", b.visit_date()}))});
  for (const Group g : groups) {
    const auto findings = in_group(g);
    if (findings.empty()) continue;
    const auto index = static_cast<std::size_t>(g);
    out.blocks.push_back(Heading{3, "group-" + std::string(tones[index]) + std::to_string(index),
                                 text(say(group_headings[index])), true});
    for (const Finding* f : findings) {
      Card card;
      card.id = card_id(*f->no);
      card.number = std::to_string(*f->no);
      card.tag = say(group_headings[index]);
      card.tone = tones[index];
      card.heading = Heading{4, card.id + "-heading", {{b.title_of(*f), Run::Look::plain, summary_id(*f->no)}}, true};
      card.blocks.emplace_back(facts_of(b, *f));
      answers(b, *f, card.blocks);
      Photos row = photo_row(f->photos, photos);
      for (const Photo& p : row.photos) out.record.note(Topic::photo, card.number, p.caption.front().text);
      if (!row.photos.empty()) card.blocks.emplace_back(std::move(row));
      out.blocks.emplace_back(std::move(card));
    }
  }
  return out;
}

}  // namespace soundsill::document
