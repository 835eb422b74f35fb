// Limits that a company sets for itself, each with where it has it from.
#pragma once

#include "jurisdiction/form.h"

namespace soundsill {

/// A company's own number: it counts like one that was read, since the company read or chose it.
template <class T>
struct OwnDatum : Placed {
  Field<T> value;
  Field<std::string> cite;
  static const yaml::Block& block();
};

/// Those of limits.def of which one value is stricter than another: a company may ask more of itself, never less.
struct OwnLimits : Placed {
#define SOUNDSILL_OWN_greater(member, type) Field<OwnDatum<type>> member;
#define SOUNDSILL_OWN_less(member, type) Field<OwnDatum<type>> member;
#define SOUNDSILL_OWN_first(member, type)
#define LIMIT(member, type, stricter, need, key, doc) SOUNDSILL_OWN_##stricter(member, type)
#include "jurisdiction/limits.def"
#undef LIMIT
#undef SOUNDSILL_OWN_greater
#undef SOUNDSILL_OWN_less
#undef SOUNDSILL_OWN_first
  static const yaml::Block& block();
};

/// Lays a company's limits over a form: of two the stricter counts, and what the company set may stop a paper.
void tighten(Form& form, const OwnLimits& own);

}  // namespace soundsill
