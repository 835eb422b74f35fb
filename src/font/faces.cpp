// Serves font/font.h.
#include <stdexcept>

#include "font/font.h"

namespace soundsill::font {

void Faces::add(std::string key, std::string_view bytes, std::string_view pairs) {
  auto face = std::make_unique<Face>(key, bytes, pairs);
  faces_.insert_or_assign(std::move(key), std::move(face));
}

const Face* Faces::find(std::string_view key) const {
  const auto found = faces_.find(key);
  return found == faces_.end() ? nullptr : found->second.get();
}

const Face& Faces::fallback() const {
  const Face* face = find(fallback_);
  if (face == nullptr) throw std::out_of_range("no fallback face was set");
  return *face;
}

void Faces::set_fallback(std::string key) {
  if (find(key) == nullptr) throw std::out_of_range("there is no face `" + key + "`");
  fallback_ = std::move(key);
}

}  // namespace soundsill::font
