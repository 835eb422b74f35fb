#include "pdf/pieces.h"

namespace soundsill::pdf {

namespace {

std::string_view artifact_opening(page::NodeId node) {
  if (node == page::artifact_header) return "/Artifact<</Type/Pagination/Subtype/Header>>BDC";
  if (node == page::artifact_footer) return "/Artifact<</Type/Pagination/Subtype/Footer>>BDC";
  return "/Artifact BMC";
}

}  // namespace

void Pieces::enter(page::NodeId node, What what) {
  if (open_ == node && (what == What::text || !within_text_)) return;
  close();
  open_ = node;
  within_text_ = what == What::text;
  if (within_text_)
    paint_->begin_text();
  else
    paint_->end_text();
  if (node < 0) return paint_->line(artifact_opening(node));
  const int number = tags_->open_piece(node, page_);
  const std::string& role = pages_->nodes[static_cast<std::size_t>(node)].role;
  paint_->line(name(role) + "<</MCID " + std::to_string(number) + ">>BDC");
}

void Pieces::close() {
  if (open_ && !within_text_) paint_->end_text();
  if (open_) paint_->line("EMC");
  open_.reset();
}

}  // namespace soundsill::pdf
