#include "cli/review_list.h"

#include <algorithm>
#include <cstdio>

#include "cli/output.h"
#include "cli/walk.h"
#include "source/most.h"

namespace soundsill::cli {
namespace {

using listing::Attention;
using listing::ReviewRow;

bool wanted(const ReviewRequest& request, const ReviewRow& row) {
  if (request.only.empty()) return true;
  return std::any_of(request.only.begin(), request.only.end(), [&](const std::string& word) {
    if (word == "ready") return row.errors == 0;
    for (std::size_t i = 0; i < std::size(listing::attention_words); ++i)
      if (listing::attention_words[i] == word) return row.asks(static_cast<Attention>(i));
    return false;
  });
}

/// Rows in the order that was asked for; what has no such date comes last.
void sort_rows(std::deque<ReviewRow>& rows, const std::string& by) {
  const auto dated = [](const std::optional<Date>& a, const std::optional<Date>& b) { return a && (!b || *a < *b); };
  std::stable_sort(rows.begin(), rows.end(), [&](const ReviewRow& a, const ReviewRow& b) {
    if (by == "closing") return dated(a.closing, b.closing);
    if (by == "holds") return dated(a.holds_until, b.holds_until);
    if (by == "renewal") return dated(a.renewal, b.renewal);
    if (by == "errors") return a.errors > b.errors;
    return a.number < b.number;
  });
}

}  // namespace

ReviewList::ReviewList(const ReviewRequest& request, const Date& today, int within)
    : request_(request),
      writer_(listing::review_writer(request.format, {today, within, SOUNDSILL_VERSION, request.color},
                                     [](std::string_view text) { return put_piece(stdout, text); })),
      sorted_(!request.sort.empty() && request.sort != "file"),
      arrived_(writer_->begin()) {}

bool ReviewList::take(ReviewRow row) {
  if (arrived_ && wanted(request_, row)) {
    if (sorted_)
      kept_.push_back(std::move(row));
    else
      arrived_ = writer_->row(row);
  }
  return arrived_;
}

ExitStatus ReviewList::end(listing::ReviewTally tally) {
  std::stable_sort(tally.not_read.begin(), tally.not_read.end(),
                   [](const auto& a, const auto& b) { return file_before(a.path, b.path); });
  if (sorted_) sort_rows(kept_, request_.sort);
  for (const ReviewRow& row : kept_) arrived_ = arrived_ && writer_->row(row);
  arrived_ = arrived_ && writer_->end(tally) && put(stdout, {});
  for (const listing::NotRead& n : tally.not_read)
    put(stderr, "soundsill: `" + safe_line(n.path) + "` was not looked into: " + safe_line(n.why) + "\n");
  if (arrived_ && tally.cases == 0) put(stderr, "soundsill: there is no case file below what was named\n");
  if (!arrived_ || tally.unreadable > 0 || !tally.not_read.empty() || tally.cases == 0) return ExitStatus::usage;
  return tally.errors > 0 || (request_.strict && tally.warnings > 0) ? ExitStatus::faults : ExitStatus::fine;
}

namespace {

ExitStatus refuse(const std::string& path, const std::string& why) {
  put(stderr, "soundsill: `" + safe_line(path) + "` cannot be merged: " + safe_line(why) + "\n");
  return ExitStatus::usage;
}

}  // namespace

ExitStatus merge_reviews(const ReviewRequest& request) {
  const DiskFiles files;
  std::optional<listing::ReviewPart> all;
  for (const std::string& path : request.paths) {
    const FileRead file = files.read(path, most::merged_bytes);
    if (!file.bytes) return refuse(path, file.trouble);
    auto [part, trouble] = listing::read_review(*file.bytes);
    if (!part) return refuse(path, "it is no list that `review --format json` wrote: " + trouble);
    if (!all) {
      all = std::move(part);
      continue;
    }
    if (part->today != all->today || part->within != all->within)
      return refuse(path, "it judges by another day, or other days ahead, than `" + request.paths.front() + "`");
    all->tally.add(part->tally);
    std::move(part->rows.begin(), part->rows.end(), std::back_inserter(all->rows));
  }
  std::stable_sort(all->rows.begin(), all->rows.end(),
                   [](const ReviewRow& a, const ReviewRow& b) { return file_before(a.path, b.path); });
  const auto twice = std::adjacent_find(all->rows.begin(), all->rows.end(),
                                        [](const ReviewRow& a, const ReviewRow& b) { return a.path == b.path; });
  if (twice != all->rows.end()) return refuse(twice->path, "two of the lists hold this case");
  ReviewList list(request, all->today, all->within);
  for (ReviewRow& row : all->rows)
    if (!list.take(std::move(row))) break;
  return list.end(std::move(all->tally));
}

}  // namespace soundsill::cli
