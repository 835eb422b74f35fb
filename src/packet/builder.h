// Shared by the files that build the sections of a packet. Not for others.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "packet/packet.h"

namespace soundsill::document {

using resolved::Finding;
using resolved::Line;
using resolved::Structure;
using resolved::Visit;

/// How a finding is spoken of: by what to do, never by a severity number.
enum class Group { live, active, open, past, damage, condition, closed };
inline constexpr Group groups[] = {Group::live,   Group::active,    Group::open,  Group::past,
                                   Group::damage, Group::condition, Group::closed};

/// What the builders of all sections need to say the same thing the same way.
struct Builder {
  const PacketInput& in;
  const resolved::Resolved& house = in.basis.resolved;
  const Words& words = in.words;
  Record* record = nullptr;  ///< where it notes what it states; nowhere when only its words are wanted

  /// The same builder, for blocks that go where this record goes.
  [[nodiscard]] Builder noting(Record& where) const {
    Builder out = *this;
    out.record = &where;
    return out;
  }
  /// Notes that the paper states this, and gives the words back to be printed. `of`: see topics.def.
  [[nodiscard]] std::string stated(Topic topic, std::string said, const std::string& of = {}) const {
    if (record) record->note(topic, of, said);
    return said;
  }

  template <class... F>
  [[nodiscard]] std::string say(Word w, F... fills) const {
    return words.say(w, {fills...});
  }
  using F = Words::Fill;

  [[nodiscard]] const Treatment* main_treatment() const {
    return in.treatments.empty() ? nullptr : &in.treatments.front();
  }
  /// The first option with a price of ours: its reasons are shown.
  [[nodiscard]] std::size_t reasoned() const {
    std::size_t i = 0;
    while (i < in.estimates.size() && in.estimates[i].lines.empty()) ++i;
    return i;
  }
  [[nodiscard]] const Estimate* main_estimate() const { return in.estimates.empty() ? nullptr : &in.estimates.front(); }

  // findings
  [[nodiscard]] Group group_of(const Finding& f) const;
  [[nodiscard]] std::vector<const Finding*> in_group(Group g) const;
  [[nodiscard]] std::string organism_of(const Finding& f) const;
  [[nodiscard]] std::string title_of(const Finding& f) const;  ///< "Live subterranean termites"
  [[nodiscard]] std::string title_words(const Finding& f) const;
  /// How statements name a finding.
  [[nodiscard]] static std::string number_of(const Finding& f) { return f.no ? std::to_string(*f.no) : std::string(); }
  [[nodiscard]] std::string place_of(const Finding& f) const;  ///< "pier 3, east face, 10 in above the footing"
  [[nodiscard]] std::string structure_prefix(const std::string& structure) const;

  // answers, in the main option
  [[nodiscard]] std::vector<const Line*> answers_to(const Finding& f) const;
  [[nodiscard]] std::string work_title(const Line& w) const;
  [[nodiscard]] std::string work_short(const Line& w) const;  ///< a few words, for tables
  [[nodiscard]] std::string by_words(By by) const;
  /// `do: none`: why, instead of what.
  [[nodiscard]] static bool nothing_done(const Line& w) { return w.method && w.takes == Takes::nothing; }
  [[nodiscard]] std::string by_whom(const Line& w) const;  ///< the firm when it is named
  [[nodiscard]] std::string party_words(Party party) const;
  [[nodiscard]] std::string settled_when(const Line& w) const;
  [[nodiscard]] std::string numbers_of(const Line& w) const;
  [[nodiscard]] std::string answer_sentence(const Line& w) const;

  // languages
  /// What a person or a law wrote stays as it is; in a translation it is marked as English.
  [[nodiscard]] Runs typed(std::string words) const;
  [[nodiscard]] std::string typed_language() const { return in.english ? in.english->say(Word::language) : ""; }
  /// In a translation, that the English text counts: in both languages.
  void translation(std::vector<Block>& blocks) const;
  [[nodiscard]] std::string paper_title() const { return words.name(in.basis.form.title.value_or("")); }

  // dates and address
  /// Why an area was not seen, and what is recommended about it.
  [[nodiscard]] std::string why_unseen(const Structure& s, const SurveyedArea& area) const;
  [[nodiscard]] std::string visit_date() const;
  /// Whether the form prescribes a sheet of the state's own for what this case is for.
  [[nodiscard]] bool asks_official_sheet() const;
  /// When a visit began and ended, of one that says so.
  [[nodiscard]] std::string from(const Visit& v) const {
    return stated(Topic::visit_from, words.shown(*v.from), day_of(v));
  }
  [[nodiscard]] std::string to(const Visit& v) const { return stated(Topic::visit_to, words.shown(*v.to), day_of(v)); }
  /// How statements name a visit.
  [[nodiscard]] static std::string day_of(const Visit& v) { return v.date ? print(*v.date) : std::string(); }
  /// The day of the visit on which a finding was seen; not said: the first.
  [[nodiscard]] std::optional<Date> seen_on(const Finding& f) const;
  [[nodiscard]] std::string address_line() const { return stated(Topic::address, house.address.line); }
  [[nodiscard]] std::string option_name(const Treatment& t) const;

  [[nodiscard]] std::string total_of(const Estimate& e) const { return stated(Topic::total, print(e.total), e.option); }
  [[nodiscard]] std::string holds_until(const Estimate& e) const {
    return stated(Topic::holds_until, words.shown(*e.holds_until), e.option);
  }

  // sections
  [[nodiscard]] Section summary() const;
  /// The photos of a list that were read; their bytes go into `bytes`.
  [[nodiscard]] Photos photo_row(const std::vector<resolved::Photo>& list,
                                 std::map<std::string, std::string>& bytes) const;

  /// Who, when, which house.
  [[nodiscard]] Facts facts() const;
  [[nodiscard]] Section particulars(std::map<std::string, std::string>& photos) const;
  [[nodiscard]] Section drawing() const;
  [[nodiscard]] Section cards(std::map<std::string, std::string>& photos) const;
  [[nodiscard]] Section areas() const;
  [[nodiscard]] Section estimate() const;
  [[nodiscard]] Section why() const;
  void would_change(const Treatment& t, const Estimate& e, std::vector<Block>& blocks) const;
  /// What stands between the lines and the total: adjustments, the minimum charge, taxes, each with its amount.
  [[nodiscard]] std::vector<std::pair<std::string, std::string>> settling(const Estimate& e) const;
  /// "wall 1 at 0 in to 10 ft and pier 3": what an option leaves alone, a sentence a structure.
  [[nodiscard]] std::vector<std::string> left_words(const Treatment& t) const;
  [[nodiscard]] std::string stretch_words(const SurveyedStructure& s, const std::vector<Stretch>& all) const;
  [[nodiscard]] Section terms() const;
  [[nodiscard]] Section signatures() const;

  /// The plan with what a treatment does to it; nothing of a treatment when there is none. With `crew`, the numbers of
  /// runs and the points of holes too.
  [[nodiscard]] Scene scene(const SurveyedStructure& s, const Treatment* t, bool crew = false) const;
  /// Where a finding stands on the drawing, and where the drawing of a work's structure stands; empty when undrawn.
  [[nodiscard]] std::string place_link(const Finding& f) const;
  [[nodiscard]] std::string plan_link(const Line& w) const;
  [[nodiscard]] std::string run_words(const soundsill::Run& run) const;
  [[nodiscard]] std::string plain_run_words(const soundsill::Run& run) const;
  /// "footing of wall 3 6 in deeper: +2.4 gal, +$12.00"
  [[nodiscard]] std::string otherwise_words(const Otherwise& other) const;
};

/// What every paper of a case has: names, dates, running words. A final paper's subject tells it from others of its
/// case, so that none takes another's place on the disk.
[[nodiscard]] Document begun(const Builder& b, const std::string& title);
[[nodiscard]] Document begun(const Builder& b, std::string kind, Word title);

/// Dangers of a structure that are not known, by their keys: then its work is not printed as work.
[[nodiscard]] std::vector<std::string> unknown_dangers(const Builder& b, const std::string& structure);

/// A wall between two parts, along which nobody measures the house.
[[nodiscard]] inline bool is_between(const Wall& wall) { return wall.shared && !wall.beside_neighbor; }
/// How statements name a wall, and an area.
[[nodiscard]] inline std::string wall_of(const SurveyedStructure& s, const Wall& wall) {
  return s.name + "/" + std::to_string(wall.number);
}
[[nodiscard]] inline std::string area_of(const Structure& s, const SurveyedArea& area) {
  return s.name + "/" + area.name;
}

[[nodiscard]] inline std::string card_id(int number) { return "card-" + std::to_string(number); }
[[nodiscard]] inline std::string line_id(const std::string& work) { return "line-" + work; }
[[nodiscard]] inline std::string summary_id(int number) { return "row-" + std::to_string(number); }
[[nodiscard]] inline std::string plan_id(std::size_t structure) { return "plan-" + std::to_string(structure + 1); }

}  // namespace soundsill::document
