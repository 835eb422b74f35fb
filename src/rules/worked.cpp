#include "rules/worked.h"

#include <algorithm>
#include <sstream>
#include <stdexcept>

namespace soundsill {
namespace {

class Reader {
 public:
  explicit Reader(std::string_view text) {
    std::istringstream lines{std::string(text)};
    for (std::string line; std::getline(lines, line);) take(line);
    finish();
  }
  std::vector<WorkedCase> cases;

 private:
  static std::string after(const std::string& line, std::string_view word) {
    return line.substr(std::min(line.size(), word.size()));
  }

  void take(const std::string& line) {
    if (line.starts_with("CASE ")) return begin(after(line, "CASE "));
    if (line.starts_with("# ") || line == "#") return notes_.push_back(after(line, "# "));
    if (says_) {
      cases.back().says += line + "\n";
      return;
    }
    if (cases.empty()) {
      if (!line.empty()) throw std::runtime_error("nothing stands before the first CASE: " + line);
    } else if (line.starts_with("+ ")) {
      now_ += (now_.empty() ? "" : "\n") + after(line, "+ ");
      has_now_ = true;
    } else if (line.starts_with("- ")) {
      if (has_now_) change();
      old_ += (old_.empty() ? "" : "\n") + after(line, "- ");
    } else {
      change();
      if (!line.empty()) direct(line);
    }
  }

  void begin(std::string name) {
    finish();
    cases.push_back({});
    cases.back().name = std::move(name);
    cases.back().notes = std::move(notes_);
    notes_.clear();
    file_ = "base.yaml";
    says_ = false;
  }

  void direct(const std::string& line) {
    WorkedCase& one = cases.back();
    if (line.starts_with("IN ")) {
      file_ = after(line, "IN ");
    } else if (line.starts_with("FORM ")) {
      one.form = after(line, "FORM ");
    } else if (line.starts_with("TODAY ")) {
      one.today = after(line, "TODAY ");
    } else if (line.starts_with("PAPER ")) {
      one.paper = after(line, "PAPER ");
    } else if (line.starts_with("RUN ")) {
      one.run = after(line, "RUN ");
    } else if (line.starts_with("PHOTO ")) {
      const auto space = line.rfind(' ');
      one.photos.emplace_back(line.substr(6, space - 6), line.substr(space + 1));
    } else if (line == "SAYS") {
      says_ = true;
    } else {
      throw std::runtime_error("not understood: " + line);
    }
  }

  void change() {
    if (!old_.empty()) cases.back().changes.push_back({file_, old_, now_});
    old_.clear();
    now_.clear();
    has_now_ = false;
  }

  void finish() {
    if (cases.empty()) return;
    std::string& says = cases.back().says;
    while (says.ends_with("\n\n") || says == "\n") says.pop_back();
  }

  std::string file_, old_, now_;
  std::vector<std::string> notes_;
  bool has_now_ = false, says_ = false;
};

}  // namespace

std::vector<WorkedCase> read_worked(std::string_view text) { return Reader(text).cases; }

}  // namespace soundsill
