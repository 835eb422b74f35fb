#include "cli/twin.h"

#include "html/html.h"
#include "pdf/pdf.h"
#include "source/markup.h"
#include "source/most.h"
#include "svg/svg.h"

namespace soundsill::cli {
namespace {

const std::string& producer() {
  static const std::string name = std::string("soundsill ") + SOUNDSILL_VERSION;
  return name;
}

/// Each drawing on a sheet of its own. Its caption is said by the page round it.
std::map<std::string, std::string> drawings_of(const document::Document& paper, const Shared& shared) {
  std::map<std::string, std::string> out;
  Faults told_before;
  const auto ids = document::ids(paper);
  for (const document::Section& section : paper.sections)
    for (const document::Block& block : section.blocks) {
      const auto* drawing = std::get_if<document::Drawing>(&block.kind);
      if (!drawing) continue;
      document::Drawing bare = *drawing;
      bare.caption.clear();
      const page::Pages sheet = page::on_one_sheet({bare}, paper, *shared.look, shared.faces, told_before, ids);
      out[drawing->id] = svg::write(sheet, {"", anchor(drawing->id) + "-", false});
    }
  return out;
}

}  // namespace

Made html_paper(const Loaded& loaded, const Shared& shared, Paper which, bool draft) {
  const document::Document paper = paper_document(loaded, shared, which, draft);
  return {paper.subject, html::write(paper, {producer(), shared.style_sheet, drawings_of(paper, shared)})};
}

Made svg_drawing(const Loaded& loaded, const Shared& shared, bool draft) {
  const document::Document paper = paper_document(loaded, shared, Paper::drawing, draft);
  std::vector<document::Block> blocks;
  if (draft) blocks.push_back(document::Paragraph{"lead", document::strong(paper.draft)});
  for (const document::Section& section : paper.sections)
    blocks.insert(blocks.end(), section.blocks.begin(), section.blocks.end());
  Faults told_before;
  const page::Pages sheet =
      page::on_one_sheet(blocks, paper, *shared.look, shared.faces, told_before, document::ids(paper));
  return {paper.subject, svg::write(sheet, {producer(), "", true})};
}

Standing standing(const std::string& path, const std::string& subject, const std::string& draft_word,
                  const Files& files) {
  const FileRead old = files.read(path, most::paper_bytes);
  if (!old.bytes) return files.exists(path) ? Standing::foreign : Standing::nothing;
  if (old.bytes->empty()) return Standing::nothing;
  const auto holds = [&](const std::string& text) { return old.bytes->find(text) != std::string::npos; };
  const auto says = [&](const std::string& what, const std::string& xml_end, const std::string& html_end) {
    return holds(pdf::subject_opening(what) + xml_end) || holds(html::subject_opening(what) + html_end) ||
           holds(svg::subject_opening(what) + xml_end);
  };
  const bool ours =
      holds("<pdf:Producer>soundsill ") || holds(std::string(html::origin())) || holds(std::string(svg::origin()));
  if (!ours) return Standing::foreign;
  return says(subject, "<", "\"") || says(draft_word + ": ", "", "") ? Standing::same : Standing::another;
}

}  // namespace soundsill::cli
