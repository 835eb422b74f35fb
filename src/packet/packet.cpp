#include "packet/packet.h"

#include "packet/builder.h"

namespace soundsill::document {

Document begun(const Builder& any, const std::string& title) {
  const PacketInput& in = any.in;
  const Words& words = in.words;
  Document out;
  const Builder b = any.noting(out.record);
  out.kind = "packet";
  out.language = words.say(Word::language);
  out.title = title + ", " + b.address_line();
  out.author = in.basis.company.name.value_or("");
  if (b.house.signature && b.house.signature->on) out.created = print(*b.house.signature->on);
  if (in.draft) out.draft = words.say(Word::draft);
  out.running["address"] = b.address_line();
  out.running["case"] = words.say(Word::case_line, {{"number", b.stated(Topic::case_number, b.house.facts.number)},
                                                    {"revision", std::to_string(b.house.facts.revision)}});
  // The subject names the paper: a final one gives way only to another with the same.
  out.subject = in.draft ? out.draft + ": " + out.running["case"] : out.running["case"];
  out.running["company"] = b.stated(Topic::company, in.basis.company.name.value_or(""));
  if (const std::string& name = b.house.people.inspector.name; in.basis.company.phone && !name.empty())
    out.running["company"] = words.say(Word::call_line, {{"name", b.stated(Topic::inspector, name)},
                                                         {"company", out.running["company"]},
                                                         {"phone", *in.basis.company.phone}});
  out.running["page"] = words.say(Word::page_of);
  out.running["contents"] = words.say(Word::contents);
  const Form& form = in.basis.form;
  out.source = words.say(Word::source_line, {{"form", words.name(form.name.value_or(""))},
                                             {"id", form.id.value_or("")},
                                             {"edition", form.edition.value_or("")}});
  return out;
}

Document begun(const Builder& b, std::string kind, Word title) {
  Document out = begun(b, b.say(title));
  out.subject += ", " + b.say(title);
  out.kind = std::move(kind);
  return out;
}

std::vector<std::string> unknown_dangers(const Builder& b, const std::string& structure) {
  std::vector<std::string> out;
  for (const Structure& s : b.house.structures)
    if (s.name == structure)
      for (const SurveyedDanger& danger : s.details->dangers)
        if (danger.answer && danger.answer->kind == Answer::Kind::not_known) out.emplace_back(danger.key);
  return out;
}

namespace {

/// The same estimates without a price of ours: what a paper of findings alone may know of them.
std::vector<Estimate> unpriced(std::vector<Estimate> all) {
  for (Estimate& e : all) {
    e.lines.clear();
    e.adjustments.clear();
    e.taxes.clear();
    e.to_minimum.reset();
    e.total = e.lines_total = {};
  }
  return all;
}

Document findings(const Builder& b) {
  Document out = begun(b, b.paper_title());
  out.sections.push_back(b.summary());
  out.sections.push_back(b.drawing());
  out.sections.push_back(b.cards(out.photos));
  out.sections.push_back(b.particulars(out.photos));
  out.sections.push_back(b.areas());
  for (Section s : {b.terms(), b.signatures()})
    if (!s.blocks.empty()) out.sections.push_back(std::move(s));
  return out;
}

}  // namespace

Document packet(const PacketInput& in) {
  if (in.apart) {
    const std::vector<Estimate> none = unpriced(in.estimates);
    const PacketInput bare{in.basis, in.treatments, none, in.words, in.photos, in.draft, true, in.english};
    return findings(Builder{bare});
  }
  const Builder b{in};
  Document out = begun(b, b.paper_title());
  out.sections.push_back(b.summary());
  out.sections.push_back(b.drawing());
  out.sections.push_back(b.cards(out.photos));
  out.sections.push_back(b.particulars(out.photos));
  out.sections.push_back(b.areas());
  for (Section s : {b.estimate(), b.why(), b.terms(), b.signatures()})
    if (!s.blocks.empty()) out.sections.push_back(std::move(s));
  return out;
}

Document drawing_paper(const PacketInput& in) {
  const Builder b{in};
  Document out = begun(b, in.words.say(Word::drawing_heading));
  out.sections.push_back(b.drawing());
  return out;
}

Document estimate_paper(const PacketInput& in) {
  const Builder b{in};
  const std::string title = in.words.say(Word::estimate_title);
  Document out = begun(b, title);
  Section first = b.estimate();
  const Builder here = b.noting(first.record);
  std::vector<Block> top{Heading{1, "top", text(title), true}, Paragraph{"address", text(here.address_line())}};
  b.translation(top);
  top.emplace_back(here.facts());
  first.blocks.insert(first.blocks.begin(), std::make_move_iterator(top.begin()), std::make_move_iterator(top.end()));
  out.sections.push_back(std::move(first));
  for (Section s : {b.why(), b.signatures()})
    if (!s.blocks.empty()) out.sections.push_back(std::move(s));
  return out;
}

}  // namespace soundsill::document
