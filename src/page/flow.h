// Strips to pages: what stands where, and when a new page begins.
#pragma once

#include "page/strip.h"
#include "page/template.h"

namespace soundsill::page {

class Flow {
 public:
  Flow(Pages& pages, const SheetStyle& sheet) : pages_(pages), sheet_(sheet) {}

  /// Places the strips below what is there, or on a new page.
  void section(const Strips& strips, const SectionStyle& style, Milli gap);
  /// There is at least one page afterwards.
  void finish();

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
  /// Fills one column with strips from `from`; at least one when it `must`. Photos may become lower when `elastic`.
  [[nodiscard]] static Filled fill(const Strips& strips, std::size_t from, Milli room, bool must, bool elastic);
  static void squeeze(const Strips& strips, Filled& filled, Milli room);
  [[nodiscard]] static std::size_t chain_end(const Strips& strips, std::size_t from);
  void in_columns(const Strips& strips, int columns);
  void place(const Strips& strips, const Filled& filled, Milli x, Milli y);
  void put(const Strip& strip, Milli x, Milli y);

  Pages& pages_;
  const SheetStyle& sheet_;
  Milli y_ = 0;        ///< where the next strip may stand
  Milli white_ = 0;    ///< white asked for by the strip above
  bool empty_ = true;  ///< nothing stands on the page yet
};

}  // namespace soundsill::page
