// What a Document states, noted by its builders while they print it: whoever asks what a paper says looks here, and
// never searches its words.
#pragma once

#include <compare>
#include <set>
#include <string>
#include <string_view>

namespace soundsill::document {

/// What can be stated, as far as anybody asks whether it was.
enum class Topic {
#define TOPIC(name, of, doc) name,
#include "document/topics.def"
#undef TOPIC
};

struct Statement {
  Topic topic{};
  std::string of;     ///< which one, where there are several: see topics.def
  std::string words;  ///< as printed
  friend auto operator<=>(const Statement&, const Statement&) = default;
};

/// Every statement once, in order.
class Record {
 public:
  /// Nothing was printed where there are no words.
  void note(Topic topic, std::string of, std::string words) {
    if (!words.empty()) all_.insert({topic, std::move(of), std::move(words)});
  }
  void add(const Record& other) { all_.insert(other.all_.begin(), other.all_.end()); }

  [[nodiscard]] bool states(Topic topic, std::string_view of = {}) const {
    const auto first = all_.lower_bound({topic, std::string(of), {}});
    return first != all_.end() && first->topic == topic && first->of == of;
  }
  [[nodiscard]] bool states(Topic topic, std::string_view of, std::string_view words) const {
    return all_.count({topic, std::string(of), std::string(words)}) > 0;
  }
  [[nodiscard]] const std::set<Statement>& all() const& { return all_; }
  [[nodiscard]] const std::set<Statement>& all() const&& = delete;  // what it belongs to would be gone

 private:
  std::set<Statement> all_;
};

}  // namespace soundsill::document
