#include "units/working.h"

namespace soundsill {

Working Working::in(WorkingWord unit) && {
  pieces_.push_back({{}, unit});
  return std::move(*this);
}

Working Working::bracketed() && {
  if (!pieces_.empty()) pieces_.front().close = true;
  pieces_.insert(pieces_.begin(), {"(", {}});
  pieces_.push_back({")", {}, true});
  return std::move(*this);
}

Working Working::shared_by(int holes, Length apart) && {
  using W = WorkingWord;
  pieces_.push_back({",", {}, true});
  pieces_.push_back({{}, W::shared_by});
  pieces_.push_back({std::to_string(holes), {}});
  if (holes == 1) return std::move(*this).in(W::hole);
  pieces_.push_back({{}, W::holes_at_most});
  pieces_.push_back({print(apart), {}});
  return std::move(*this).in(W::apart);
}

Working Working::joined(std::string_view sign, const Working& other) && {
  if (!pieces_.empty()) pieces_.push_back({std::string(sign), {}});
  pieces_.insert(pieces_.end(), other.pieces_.begin(), other.pieces_.end());
  return std::move(*this);
}

}  // namespace soundsill
