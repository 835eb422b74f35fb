// Strips to pages: what stands where, and when a new page begins.
#pragma once

#include "setting/strip.h"
#include "template/template.h"

namespace soundsill::page {

/// Strips of one width, side by side in that many columns.
struct Part {
  Strips strips;
  int columns = 1;
};

class Flow {
 public:
  /// Without pages it only counts. `white` is how much of the white between strips is left, in percent.
  Flow(Pages* pages, const SheetStyle& sheet, int white) : pages_(pages), sheet_(sheet), percent_(white) {}

  /// Places the parts below what is there, or on a new page.
  void section(const std::vector<Part>& parts, const SectionStyle& style, Milli gap);
  /// There is at least one page afterwards.
  void finish();
  void set_white(int percent) { percent_ = percent; }

  [[nodiscard]] int count() const { return count_; }
  /// How far down the last page reaches.
  [[nodiscard]] Milli filled() const { return y_ - top(); }

 private:
  struct Stand {
    std::size_t strip = 0;
    Milli y = 0;             ///< from the top of the column
    bool with_head = false;  ///< the repeated head stands above
    Milli lower = 0;         ///< by how much its photos are made lower
  };
  struct Filled {
    std::vector<Stand> stands;
    std::size_t next = 0;
    Milli height = 0;
    Milli give = 0;
  };

  void new_page();
  [[nodiscard]] Milli top() const { return sheet_.top; }
  [[nodiscard]] Milli bottom() const { return sheet_.height - sheet_.bottom; }
  [[nodiscard]] Milli white(Milli wanted) const { return static_cast<Milli>(std::int64_t{wanted} * percent_ / 100); }
  [[nodiscard]] Milli between(const Strip& above, const Strip& below) const {
    return white(std::max(above.after, below.before));
  }
  [[nodiscard]] Milli height_with_white(const Strips& strips) const;
  /// Fills one column with strips from `from`; at least one when it `must`. Photos may become lower when `elastic`.
  [[nodiscard]] Filled fill(const Strips& strips, std::size_t from, Milli room, bool must, bool elastic) const;
  static void squeeze(const Strips& strips, Filled& filled, Milli room);
  [[nodiscard]] static std::size_t chain_end(const Strips& strips, std::size_t from);
  void lay(const std::vector<Part>& parts);
  /// How many pages more there would be with the parts.
  [[nodiscard]] int pages_with(const std::vector<Part>& parts) const;
  /// `lead` stands above the columns, as wide as the page, on the same page as what they begin with.
  void in_columns(const Strips& strips, int columns, const Strips& lead);
  /// The first column takes something even when that does not fit, if it `must`.
  [[nodiscard]] std::vector<Filled> columns_at(const Strips& strips, std::size_t next, int columns, Milli room,
                                               bool must) const;
  void place(const Strips& strips, const Filled& filled, Milli x, Milli y);
  void put(const Strip& strip, Milli x, Milli y);

  Pages* pages_;
  const SheetStyle& sheet_;
  int percent_;
  int count_ = 0;
  Milli y_ = 0;        ///< where the next strip may stand
  Milli white_ = 0;    ///< white asked for by the strip above
  bool empty_ = true;  ///< nothing stands on the page yet
};

}  // namespace soundsill::page
