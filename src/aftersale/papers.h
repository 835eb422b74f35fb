// The papers after the estimate. Each is made for one option: the input holds that one alone, with its estimate.
#pragma once

#include <string>
#include <vector>

#include "packet/packet.h"
#include "service/service.h"

namespace soundsill::document {

/// What the crew works by: runs, holes, mix, dangers, with room for what was really done.
[[nodiscard]] Document work_order(const PacketInput& in);
/// Proposal and service agreement, with the items that a form asks, and a worksheet for the state's own waiver.
[[nodiscard]] Document agreement(const PacketInput& in);
/// What was applied, beside what was planned; with a lender, the statement that the work is done.
[[nodiscard]] Document record(const PacketInput& in);
/// The notice of the treatment that is put up at the house, where the form asks one.
[[nodiscard]] Document posted_notice(const PacketInput& in);
/// The notice of the inspection, which needs no option.
[[nodiscard]] Document inspection_notice(const PacketInput& in);
/// Whether this sale can be canceled by the law of sales at home: by its place and its price.
[[nodiscard]] bool can_be_canceled(const PacketInput& in);
/// The last day on which it can be, once it is accepted.
[[nodiscard]] std::optional<Date> last_day_to_cancel(const PacketInput& in);
/// What is billed, and what of it was paid. The input holds no option when only fees are billed.
[[nodiscard]] Document invoice(const PacketInput& in);
/// What the warranty promises, to whom, and how long.
[[nodiscard]] Document certificate(const PacketInput& in);

/// One letter of the office: all that comes due to one holder at one address on one day.
struct Letter {
  struct Matter {
    const PacketInput* in = nullptr;
    Due due;
  };
  std::vector<Matter> matters;
};
[[nodiscard]] Document letters(const Words& words, const Company& company, const std::vector<Letter>& all, Date today);

/// Items of the form's list that an agreement does not hold: those whose heading or row is missing, or says nothing.
struct MissingItem {
  const ItemRule* rule = nullptr;
};
[[nodiscard]] std::vector<MissingItem> missing_items(const PacketInput& in, const Document& paper);
/// Reports each of them at the key that could fill it.
void check_items(const PacketInput& in, const Document& paper, Faults& faults);
/// The id under which an item stands in the agreement.
[[nodiscard]] std::string item_id(AgreementItem item);

}  // namespace soundsill::document
