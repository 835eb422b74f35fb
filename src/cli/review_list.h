// The list of a review as it comes out: rows picked, put in order and written, and what they amount to.
#pragma once

#include <deque>
#include <memory>
#include <string>

#include "cli/review.h"
#include "listing/review.h"

namespace soundsill::cli {

class ReviewList {
 public:
  ReviewList(const ReviewRequest& request, const Date& today, int within);

  /// Takes the next row. False when the list cannot be written any more.
  [[nodiscard]] bool take(listing::ReviewRow row);
  /// Writes what was kept back and the end; tells of what is missing.
  [[nodiscard]] ExitStatus end(listing::ReviewTally tally);

 private:
  const ReviewRequest& request_;
  std::unique_ptr<listing::ReviewWriter> writer_;
  bool sorted_, arrived_;
  std::deque<listing::ReviewRow> kept_;  ///< only where rows have to be put in order
};

/// The lists of shards, written by `review --format json`, as the one list that a single run would have written.
[[nodiscard]] ExitStatus merge_reviews(const ReviewRequest& request);

}  // namespace soundsill::cli
