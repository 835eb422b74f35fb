// Serves yaml/read_scanner.h. Entries inside brackets: what a comma splits that was meant as one.
#include "yaml/read_scanner.h"

namespace soundsill::yaml {

void Flow::end_item(bool by_comma) {
  Bracket& b = open_.back();
  if (b.phase == Bracket::Phase::empty) {
    if (!by_comma) return;
    words::nothing_before_comma(s_.report, at_);
    s_.blank_out(at_, at_ + 1);
    return;
  }
  if (b.phase == Bracket::Phase::item && b.map)
    lone_item(b);
  else if (b.phase == Bracket::Phase::item)
    list_item(b);
  else {
    tell_split(b);
    b.before = b.phase == Bracket::Phase::value ? b.last : Bracket::none;
  }
  b.phase = Bracket::Phase::empty;
  b.plain = false;
  b.last = Bracket::none;
}

/// { key: text, more text, key: ... }: what has no colon most likely belongs to the text before the comma.
void Flow::lone_item(Bracket& b) {
  if (b.last == Bracket::none) {
    words::lone_collection(s_.report, s_.look.stretch(s_.out.brackets.back()));
    return s_.give_up();
  }
  Piece& item = s_.out.pieces[b.last];
  if (item.spoiled && b.before == Bracket::none) {
    item.hushed = true;
    return s_.distrust();
  }
  if (!item.spoiled && s_.look.lacks_space(item)) {
    tell_split(b);
    s_.missing_space(item);
    b.before = Bracket::none;
    return;
  }
  if (b.before != Bracket::none) return join(b);
  words::lone_word(s_.report, s_.look.stretch(item));
  item.hushed = true;
}

void Flow::list_item(Bracket& b) {
  if (splits_amount(b)) return join(b);
  tell_split(b);
  b.before = b.last;
}

/// [$1,250.00]: digits right behind an amount and a comma.
bool Flow::splits_amount(const Bracket& b) const {
  if (b.before == Bracket::none || b.last == Bracket::none) return false;
  const Piece& head = s_.out.pieces[b.before];
  const Piece& tail = s_.out.pieces[b.last];
  if (head.end + 1 != tail.begin) return false;
  std::string_view before = s_.look.stretch(head).text;
  const std::string_view after = s_.look.stretch(tail).text;
  const std::size_t digits = std::min(after.find_first_not_of("0123456789"), after.size());
  if (digits != 3) return false;
  if (b.split) return true;
  const bool dollars = before.starts_with('$');
  if (dollars) before.remove_prefix(1);
  const bool amount =
      !before.empty() && before.size() <= 3 && before.find_first_not_of("0123456789") == std::string_view::npos;
  const bool cents = after.size() == 6 && after[3] == '.';
  return amount && (dollars || cents);
}

void Flow::join(Bracket& b) {
  const std::size_t end = s_.out.pieces[b.last].end;
  Piece& head = s_.out.pieces[b.before];
  if (!head.spoiled) {
    b.split = true;
    const std::size_t begin = head.begin;
    s_.spoil(begin, end);
    b.before = last_piece();
  } else {
    s_.spoil_further(b.before, end);
  }
}

void Flow::tell_split(Bracket& b) {
  if (!b.split) return;
  b.split = false;
  words::split_by_comma(s_.report, s_.look.stretch(s_.out.pieces[b.before]), b.map);
}

}  // namespace soundsill::yaml
