// Many cases at once: read on all cores, told in the order of their files, forgotten one by one.
#include "cli/review.h"

#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <cstdio>
#include <map>
#include <mutex>
#include <system_error>
#include <thread>

#include "cli/output.h"
#include "cli/review_list.h"
#include "cli/walk.h"
#include "rules/calendar.h"
#include "service/service.h"

namespace soundsill::cli {
namespace {

using listing::Attention;
using listing::ReviewRow;

bool within(const std::optional<Date>& date, const Date& today, int days) {
  return date && *date >= today && *date <= plus_days(today, days);
}

void take_facts(ReviewRow& row, const Case& c) {
  if (c.facts) {
    if (c.facts->number) row.number = *c.facts->number;
    if (c.facts->closing) row.closing = *c.facts->closing;
  }
  if (c.form) row.form = *c.form;
  for (const Visit& v : items(c.visits))
    if (v.date && (!row.visited || *v.date > *row.visited)) row.visited = *v.date;
  row.address = c.address_line();
}

/// Whether a treatment that took place, or was planned for a day that is over, has no record.
std::string record_of(const Case& c, const Date& today) {
  const auto& applied = items(c.applied);
  const auto recorded = [&](const Date& day) {
    return std::any_of(applied.begin(), applied.end(), [&](const Applied& a) { return a.on && *a.on == day; });
  };
  for (const Visit& v : items(c.visits)) {
    const bool treated = v.made_for && (*v.made_for == VisitFor::treatment || *v.made_for == VisitFor::retreatment);
    if (treated && v.date && !recorded(*v.date)) return "missing";
  }
  if (!applied.empty()) return "there";
  return c.accepted && c.job && c.job->on && *c.job->on < today ? "missing" : "";
}

/// What comes after the signature: the warranty, the record, and how long papers are kept.
void take_service(ReviewRow& row, const Loaded& loaded, const Date& today) {
  row.record = record_of(*loaded.c, today);
  const Treatment* chosen = chosen_treatment(loaded.resolved, loaded.treatments);
  const auto term = chosen ? term_of(*loaded.basis, *chosen) : std::nullopt;
  if (term && !term->missed) row.renewal = term->until;
  for (const Keeping& paper : keeping(*loaded.basis, loaded.treatments, today)) {
    if (!paper.passed || !paper.until || !paper.rule->paper) continue;
    std::string words =
        "the " + std::string(yaml::word(*paper.rule->paper)) + " had to be kept until " + print(*paper.until);
    for (const std::string& hold : paper.holds) words += "; " + hold;
    row.kept.push_back(std::move(words));
    if (paper.holds.empty() && !row.asks(Attention::keep)) row.attention.push_back(Attention::keep);
  }
}

ReviewRow row_of(const Loaded& loaded, const Date& today, int days) {
  ReviewRow row;
  row.path = whole_letters(loaded.path);
  row.errors = loaded.faults.errors();
  row.warnings = loaded.faults.warnings();
  row.unreadable = loaded.unreadable;
  for (const Diagnostic& d : loaded.faults.all()) {
    row.faults.push_back(listing::told(d));
    if (row.faults.back().file.empty()) row.faults.back().file = row.path;
  }
  if (loaded.c) take_facts(row, *loaded.c);
  if (loaded.basis) {
    row.holds_until = rules::holds_until(*loaded.basis);
    take_service(row, loaded, today);
  }
  const auto ask = [&](bool asks, Attention what) {
    if (asks) row.attention.push_back(what);
  };
  const bool closed = row.closing && *row.closing < today;
  ask(row.errors > 0, Attention::not_ready);
  ask(!closed && within(row.holds_until, today, days), Attention::lapsing);
  ask(within(row.closing, today, days), Attention::closing);
  ask(within(row.renewal, today, days), Attention::renewal);
  ask(row.record == "missing", Attention::no_record);
  std::sort(row.attention.begin(), row.attention.end());
  return row;
}

/// Reads cases on several threads and hands their rows over in the order of the walk.
class Readers {
 public:
  Readers(const ReviewRequest& request, const Shared& shared, const Files& files, const Date& today)
      : request_(request),
        shared_(shared),
        files_(files),
        shelf_(files),
        today_(today),
        walk_(in_order(request.paths)) {
    const unsigned cores = std::max(1U, std::thread::hardware_concurrency());
    const unsigned jobs = request.jobs > 0 ? static_cast<unsigned>(request.jobs) : cores;
    ahead_ = std::size_t{16} * jobs;
    if (jobs == 1) return;  // without a thread the program spares the locks of malloc and of shared pointers
    try {
      for (unsigned i = 0; i < jobs; ++i) threads_.emplace_back([this] { work(); });
    } catch (const std::system_error&) {  // fewer will do, and so will none
    }
  }
  ~Readers() { finish(); }
  Readers(const Readers&) = delete;
  Readers& operator=(const Readers&) = delete;

  /// The next row; waits for it. Nothing at the end.
  std::optional<ReviewRow> next() {
    if (threads_.empty()) {
      const auto found = walk_.next();
      return found ? std::optional(read(*found)) : std::nullopt;
    }
    std::unique_lock lock(mutex_);
    ready_.wait(lock, [&] { return done_.count(handed_) > 0 || (ended_ && handed_ == taken_) || failed_; });
    if (failed_) std::rethrow_exception(failed_);
    const auto found = done_.find(handed_);
    if (found == done_.end()) return std::nullopt;
    ReviewRow out = std::move(found->second);
    done_.erase(found);
    ++handed_;
    room_.notify_all();
    return out;
  }
  /// Ends the reading, wherever it is.
  void finish() {
    {
      const std::lock_guard lock(mutex_);
      stop_ = true;
    }
    room_.notify_all();
    for (std::thread& t : threads_) t.join();
    threads_.clear();
  }
  /// After finish().
  [[nodiscard]] const std::vector<listing::NotRead>& not_read() const { return walk_.not_read(); }

 private:
  static std::vector<std::string> in_order(std::vector<std::string> paths) {
    std::sort(paths.begin(), paths.end(), &file_before);
    return paths;
  }

  ReviewRow read(const std::string& path) {
    Loaded loaded;
    load_case(loaded, path, shared_, request_.where, files_, shelf_, PhotoCheck::header);
    return row_of(loaded, today_, request_.within);
  }

  /// The next case and its place in the order; nothing at the end.
  std::optional<std::pair<std::size_t, std::string>> task() {
    std::unique_lock lock(mutex_);
    room_.wait(lock, [&] { return stop_ || ended_ || taken_ < handed_ + ahead_; });
    if (stop_ || ended_) return std::nullopt;
    auto found = walk_.next();
    if (found) return std::pair(taken_++, std::move(*found));
    ended_ = true;
    return std::nullopt;
  }

  void work() {
    try {
      while (auto next = task()) {
        ReviewRow row = read(next->second);
        const std::lock_guard lock(mutex_);
        done_.emplace(next->first, std::move(row));
        ready_.notify_one();
      }
    } catch (...) {
      const std::lock_guard lock(mutex_);
      if (!failed_) failed_ = std::current_exception();
      ended_ = true;
    }
    room_.notify_all();
    ready_.notify_all();
  }

  const ReviewRequest& request_;
  const Shared& shared_;
  const Files& files_;
  Shelf shelf_;
  Date today_;
  Walk walk_;
  std::size_t ahead_ = 0, taken_ = 0, handed_ = 0;
  bool ended_ = false, stop_ = false;
  std::exception_ptr failed_;
  std::map<std::size_t, ReviewRow> done_;
  std::mutex mutex_;
  std::condition_variable ready_, room_;
  std::vector<std::thread> threads_;
};

class Progress {
 public:
  explicit Progress(bool wanted) : wanted_(wanted) {}
  void step(std::size_t cases) {
    if (!wanted_) return;
    const auto now = std::chrono::steady_clock::now();
    if (now - last_ < std::chrono::milliseconds(200)) return;
    last_ = now;
    std::fprintf(stderr, "\r%zu cases", cases);
    std::fflush(stderr);
    shown_ = true;
  }
  ~Progress() {
    if (shown_) std::fputs("\r                    \r", stderr);
  }
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

 private:
  bool wanted_, shown_ = false;
  std::chrono::steady_clock::time_point last_ = std::chrono::steady_clock::now();
};

}  // namespace

ExitStatus review_cases(const ReviewRequest& request) {
  const DiskFiles files;
  Shared shared;
  load_shared(shared, request.where, files, Sharing::data);
  if (shared.faults.errors() > 0) {
    shared.faults.sort();
    print_faults(stderr, shared.faults, request.color);
    return ExitStatus::usage;
  }
  const Date today = today_of(request.where);
  ReviewList list(request, today, request.within);
  listing::ReviewTally tally;
  Readers readers(request, shared, files, today);
  {
    Progress progress(request.progress);
    while (auto row = readers.next()) {
      tally.add(*row);
      progress.step(tally.cases);
      if (!list.take(std::move(*row))) break;
    }
  }
  readers.finish();
  for (const listing::NotRead& n : readers.not_read())
    tally.not_read.push_back({whole_letters(n.path), whole_letters(n.why)});
  return list.end(std::move(tally));
}

}  // namespace soundsill::cli
