// Places one can tap, and the bookmarks.
#pragma once

#include <string>
#include <vector>

#include "pages/pages.h"
#include "pdf/file.h"
#include "pdf/tags.h"

namespace soundsill::pdf {

/// Adds the annotation of a link and gives its object. Throws std::invalid_argument when it leads nowhere.
Id add_link(File& file, Tags& tags, const page::Pages& pages, const std::vector<Id>& page_ids, int page,
            const page::LinkMark& mark);

void add_bookmarks(File& file, const page::Pages& pages, const std::vector<Id>& page_ids);

}  // namespace soundsill::pdf
