// What `review` tells of many cases, row by row, so that a hundred thousand take no more room than one.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "diagnostics/diagnostics.h"
#include "units/units.h"

namespace soundsill::listing {

/// A fault without its source: what is left of it when the case is closed.
struct ToldFault {
  Rule rule{};
  std::string file;
  std::size_t line = 0, column = 0, end_line = 0, end_column = 0;  ///< 0 when it has no place
  std::string what, why, fix;
  Rests rests = Rests::read;
  [[nodiscard]] Severity severity() const { return soundsill::severity(rule, rests); }
};
[[nodiscard]] ToldFault told(const Diagnostic& fault);

/// What asks for somebody's attention.
enum class Attention { not_ready, lapsing, closing, renewal, no_record, keep };
inline constexpr std::string_view attention_words[] = {"not ready", "lapsing",   "closing",
                                                       "renewal",   "no record", "keep"};

struct ReviewRow {
  std::string path;
  std::string number, address, form;
  std::optional<Date> visited, closing, holds_until, renewal;
  std::string record;             ///< "" when none is due, "there", "missing"
  std::vector<std::string> kept;  ///< papers whose time to keep has passed, or what holds them
  std::size_t errors = 0, warnings = 0;
  bool unreadable = false;        ///< a file could not be read at all
  std::vector<ToldFault> faults;  ///< in the order of the file
  std::vector<Attention> attention;
  [[nodiscard]] bool asks(Attention what) const;
};

/// A folder that could not be looked into, or a name that leads nowhere: cases may be missing because of it.
struct NotRead {
  std::string path, why;
};

/// Sums over all rows, shown or not.
struct ReviewTally {
  std::size_t cases = 0, errors = 0, warnings = 0;
  std::size_t unreadable = 0;  ///< cases of which a file could not be read at all
  std::vector<NotRead> not_read;
  std::size_t asking[std::size(attention_words)] = {};
  void add(const ReviewRow& row);
  void add(const ReviewTally& more);
};

/// Where text goes; gives false when it did not arrive.
using Put = std::function<bool(std::string_view)>;

struct ReviewFrame {
  Date today;
  int within = 7;  ///< days ahead
  std::string version;
  bool color = false;
};

/// One JSON of `review`, read back: what a shard of many cases found.
struct ReviewPart {
  Date today;
  int within = 0;
  std::vector<ReviewRow> rows;
  ReviewTally tally;
};
/// Or, in words, why the text is none.
struct ReadPart {
  std::optional<ReviewPart> part;
  std::string trouble;
};
[[nodiscard]] ReadPart read_review(std::string_view json);

/// Writes rows as they come. Every call gives false when the text did not arrive.
class ReviewWriter {
 public:
  virtual ~ReviewWriter() = default;
  virtual bool begin() { return true; }
  virtual bool row(const ReviewRow& row) = 0;
  virtual bool end(const ReviewTally& tally) = 0;
};
/// `format` is text, csv, json, html or sarif.
[[nodiscard]] std::unique_ptr<ReviewWriter> review_writer(std::string_view format, ReviewFrame frame, Put put);

/// Faults as one SARIF 2.1.0 log (OASIS), columns counted in letters.
[[nodiscard]] std::string faults_sarif(const Faults& faults, std::string_view version);

// For the writers among themselves.
[[nodiscard]] std::unique_ptr<ReviewWriter> html_review(ReviewFrame frame, Put put);
[[nodiscard]] std::unique_ptr<ReviewWriter> sarif_review(ReviewFrame frame, Put put);

}  // namespace soundsill::listing
