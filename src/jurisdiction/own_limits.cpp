#include "jurisdiction/own_limits.h"

namespace soundsill {

using yaml::Block;
using yaml::key;
using yaml::Key;
constexpr auto always = yaml::Need::always;
constexpr auto never = yaml::Need::never;

template <class T>
const Block& OwnDatum<T>::block() {
  static constexpr Key rows[] = {
      key<&OwnDatum<T>::value>("value", always, "the number"),
      key<&OwnDatum<T>::cite>("cite", always, "where the company has it from"),
  };
  static constexpr Block made{"a limit of the company", rows};
  return made;
}
template struct OwnDatum<Length>;
template struct OwnDatum<Ratio>;
template struct OwnDatum<Percent>;
template struct OwnDatum<int>;

const Block& OwnLimits::block() {
  static constexpr Key rows[] = {
#define SOUNDSILL_OWN_greater(member, name, doc) key<&OwnLimits::member>(name, never, doc),
#define SOUNDSILL_OWN_less(member, name, doc) key<&OwnLimits::member>(name, never, doc),
#define SOUNDSILL_OWN_first(member, name, doc)
#define LIMIT(member, type, stricter, need, name, doc) SOUNDSILL_OWN_##stricter(member, name, doc)
#include "jurisdiction/limits.def"
#undef LIMIT
#undef SOUNDSILL_OWN_greater
#undef SOUNDSILL_OWN_less
#undef SOUNDSILL_OWN_first
  };
  static constexpr Block made{"the `limits` of a company", rows};
  return made;
}

namespace {

template <class T>
void take(Field<Datum<T>>& into, const Field<OwnDatum<T>>& own) {
  if (!own || !own->value || !own->cite) return;
  Datum<T> datum;
  datum.at = own->at;
  datum.value = own->value;
  datum.cite = own->cite;
  datum.status.set(Status::company);
  into.set(std::move(datum));
  into.key = own.key;
  into.at = own.at;
}

}  // namespace

void tighten(Form& form, const OwnLimits& own) {
  Form overlay;
#define SOUNDSILL_OWN_greater(member) take(overlay.firm.member, own.member);
#define SOUNDSILL_OWN_less(member) take(overlay.firm.member, own.member);
#define SOUNDSILL_OWN_first(member)
#define LIMIT(member, type, stricter, need, name, doc) SOUNDSILL_OWN_##stricter(member)
#include "jurisdiction/limits.def"
#undef LIMIT
#undef SOUNDSILL_OWN_greater
#undef SOUNDSILL_OWN_less
#undef SOUNDSILL_OWN_first
  overlay.told = overlay.firm;
  overlay.limits.set(overlay.firm);
  tighten(form, overlay);
}

}  // namespace soundsill
