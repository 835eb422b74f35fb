// The marked pieces of one page: neighbouring marks of one node share a piece, artifacts say what they are.
#pragma once

#include "pdf/paint.h"
#include "pdf/tags.h"

namespace soundsill::pdf {

class Pieces {
 public:
  Pieces(Paint& paint, Tags& tags, const page::Pages& pages, int page)
      : paint_(&paint), tags_(&tags), pages_(&pages), page_(page) {}

  enum class What { text, other };
  /// To be called before a mark of that node is painted.
  void enter(page::NodeId node, What what);
  void close();

 private:
  Paint* paint_;
  Tags* tags_;
  const page::Pages* pages_;
  int page_;
  std::optional<page::NodeId> open_;
  bool within_text_ = false;  ///< the open piece began within a run of texts, and has to end within it
};

}  // namespace soundsill::pdf
