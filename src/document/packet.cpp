#include "document/packet.h"

#include "document/builder.h"

namespace soundsill::document {

Document packet(const PacketInput& in) {
  const Builder b{in};
  const Words& words = in.words;
  Document out;
  out.kind = "packet";
  out.language = words.say(Word::language);
  out.title = in.basis.form.title.value_or("") + ", " + b.address_line();
  out.author = in.basis.company.name.value_or("");
  if (in.basis.c.signature && in.basis.c.signature->on) out.created = print(*in.basis.c.signature->on);
  if (in.draft) out.draft = words.say(Word::draft);
  const auto& facts = in.basis.c.facts;
  out.running["address"] = b.address_line();
  out.running["case"] =
      words.say(Word::case_line, {{"number", facts ? facts->number.value_or("") : ""},
                                  {"revision", std::to_string(facts ? facts->revision.value_or(1) : 1)}});
  // The subject names the paper: a final one gives way only to another with the same.
  out.subject = in.draft ? out.draft + ": " + out.running["case"] : out.running["case"];
  out.running["company"] = in.basis.company.name.value_or("");
  const auto& people = in.basis.c.people;
  if (in.basis.company.phone && people && people->inspector && people->inspector->name)
    out.running["company"] = words.say(
        Word::call_line,
        {{"name", *people->inspector->name}, {"company", out.running["company"]}, {"phone", *in.basis.company.phone}});
  out.running["page"] = words.say(Word::page_of);
  out.sections.push_back(b.summary());
  out.sections.push_back(b.particulars(out.photos));
  out.sections.push_back(b.drawing());
  out.sections.push_back(b.cards(out.photos));
  out.sections.push_back(b.areas());
  for (Section s : {b.estimate(), b.terms(), b.signatures()})
    if (!s.blocks.empty()) out.sections.push_back(std::move(s));
  return out;
}

}  // namespace soundsill::document
