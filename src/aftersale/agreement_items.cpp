// Serves aftersale/papers.h. Says which items of the form's list an agreement does not hold.
#include "aftersale/papers.h"

namespace soundsill::document {
namespace {

Span place_of(const resolved::Blocks& blocks, AgreementItem item) {
  Span at;
  switch (item) {
    case AgreementItem::owner:
    case AgreementItem::inspection:
      at = blocks.people;
      break;
    case AgreementItem::location:
      at = blocks.property;
      break;
    case AgreementItem::basis:
    case AgreementItem::covered_part:
    case AgreementItem::moisture_readings:
      at = blocks.findings;
      break;
    default:
      break;
  }
  for (const Span& other : {blocks.accepted, blocks.options, blocks.findings, blocks.whole})
    if (!at) at = other;
  return at;
}

std::string fix_for(AgreementItem item) {
  switch (item) {
    case AgreementItem::owner:
      return "write `owner: {name: ..., address: ...}` or `seller:` under `people:`";
    case AgreementItem::inspection:
      return "write the inspector under `people:` and the day under `visits:`";
    case AgreementItem::basis:
      return "write `basis:` or `signs:` with each finding that is treated";
    case AgreementItem::covered_part:
      return "let the findings that are treated say where they are";
    case AgreementItem::moisture_readings:
      return "write `moisture: [{at: ..., percent: ...}]` with the finding of decay";
    case AgreementItem::formosan:
      return "write `Formosan termites:` yes or no with the warranty in the company file";
    case AgreementItem::license:
      return "write `license:` with number, phases and holder in the company file";
    default:
      return "add what the case or the company file lacks, then make the agreement again";
  }
}

}  // namespace

void check_items(const PacketInput& in, const Document& paper, Faults& faults) {
  for (const MissingItem& missing : missing_items(in, paper)) {
    const AgreementItem item = *missing.rule->item;
    const std::string cite = missing.rule->cite ? " (" + *missing.rule->cite + ")" : std::string();
    faults.add(Rule::agreement_item, place_of(in.basis.resolved.blocks, item),
               "the agreement does not hold `" + std::string(yaml::word(item)) + "`",
               "an agreement without it is not complete, and the company stands without one" + cite, fix_for(item),
               rests_on(*missing.rule));
  }
}

}  // namespace soundsill::document
