// A number of the law with where it comes from, how far it was verified, and what it may stop.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "yaml/keys.h"

namespace soundsill {

using yaml::Field;
using yaml::Placed;
template <class T>
using ListOf = yaml::Field<std::vector<T>>;

/// How far a datum was verified. `company`: the company set it itself, and says where it has it from.
enum class Status { published, secondary, derived, memory, common_practice, company };

/// Whether text was read for it: the law's own, or what a company read for itself.
[[nodiscard]] constexpr bool was_read(Status status) {
  return status == Status::published || status == Status::company;
}

/// What a fault rests on that breaks this datum, rule or item: whatever has a `status` and may `insist`. This is the
/// one place that decides what may stop a paper: what was read, and what somebody insists on.
template <class D>
[[nodiscard]] Rests rests_on(const D& datum) {
  if constexpr (requires { datum.insist; })
    if (datum.insist.value_or(false)) return Rests::read;
  return datum.status && was_read(*datum.status) ? Rests::read : Rests::unread;
}
/// The citation as papers print it at the end of a sentence: " (16 CFR 429.1(a))"; nothing unless the text was read.
template <class D>
[[nodiscard]] std::string printed_cite(const D& datum) {
  return datum.cite && datum.status && was_read(*datum.status) ? " (" + *datum.cite + ")" : std::string();
}

/// A number with where it comes from.
template <class T>
struct Datum : Placed {
  Field<T> value;
  Field<std::string> cite;
  Field<Status> status;
  Field<bool> insist;  ///< yes, when it stops a paper though nobody has read it
  static const yaml::Block& block();
};

/// The value as a paper may print it: nothing that is only remembered.
template <class T>
[[nodiscard]] std::optional<T> printed_value(const Field<Datum<T>>& datum) {
  if (!datum || !datum->value || !datum->status || *datum->status == Status::memory) return std::nullopt;
  return *datum->value;
}

}  // namespace soundsill

namespace soundsill::yaml {
template <>
struct Words<Status> {
  static constexpr auto words =
      std::to_array<std::string_view>({"published", "secondary", "derived", "memory", "common practice", "company"});
};
}  // namespace soundsill::yaml
