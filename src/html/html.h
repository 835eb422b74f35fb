// A Document as one page of HTML that needs nothing else: no script, no network, every photo and drawing inside.
#pragma once

#include <map>
#include <string>

#include "document/document.h"

namespace soundsill::html {

struct Options {
  std::string producer;  ///< "soundsill 0.1.0"
  std::string style;     ///< the style sheet
  /// Drawings by their id, as SVG without the first line of XML. One that is not here is told by its words alone.
  std::map<std::string, std::string> drawings;
};

/// Why photos could not be shown, by their keys.
using PhotoTroubles = std::map<std::string, std::string>;

/// Well-formed as XML too. Says the strings of the document in their order; whatever a person typed is escaped.
/// Photos are made anew from their pixels; in place of one that cannot be stand its words, and `troubles` has the
/// reason.
[[nodiscard]] std::string write(const document::Document& document, const Options& options, PhotoTroubles& troubles);

/// How the description of a paper of this subject begins in the file.
[[nodiscard]] std::string subject_opening(const std::string& subject);
/// What every file of ours says of its origin.
[[nodiscard]] std::string_view origin();

}  // namespace soundsill::html
