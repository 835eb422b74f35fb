// Blocks of a document to strips, one maker a kind.
#pragma once

#include "drawing/drawing.h"
#include "setting/workshop.h"

namespace soundsill::page {

/// `next` is the block that follows, if any: words that lead into a list stay with it.
[[nodiscard]] Strips block_strips(Workshop& shop, const document::Block& block, const document::Block* next,
                                  Place place);
[[nodiscard]] Strips block_strips(Workshop& shop, const std::vector<document::Block>& blocks, Place place);

[[nodiscard]] Strips heading_strips(Workshop& shop, const document::Heading& heading, const TextStyle& style,
                                    Place place);
[[nodiscard]] Strips make(Workshop& shop, const document::Heading& heading, Place place);
[[nodiscard]] Strips make(Workshop& shop, const document::Paragraph& paragraph, Place place);
[[nodiscard]] Strips make(Workshop& shop, const document::List& list, Place place);
[[nodiscard]] Strips make(Workshop& shop, const document::Table& table, Place place);
[[nodiscard]] Strips make(Workshop& shop, const document::Facts& facts, Place place);
[[nodiscard]] Strips make(Workshop& shop, const document::Photos& photos, Place place);
[[nodiscard]] inline Strips make(Workshop& shop, const document::Drawing& drawing, Place place) {
  return drawing_strips(shop, drawing, place);
}
[[nodiscard]] Strips make(Workshop& shop, const document::Signatures& signatures, Place place);
[[nodiscard]] Strips make(Workshop& shop, const document::Card& card, Place place);
[[nodiscard]] Strips make(Workshop& shop, const document::Figures& figures, Place place);
[[nodiscard]] Strips make(Workshop& shop, const document::Bars& bars, Place place);

}  // namespace soundsill::page
