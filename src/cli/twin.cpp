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

Made html_paper(Loaded& loaded, const Shared& shared, Paper which, bool draft) {
  const document::Document paper = paper_document(loaded, shared, which, draft);
  html::PhotoTroubles troubles;
  Made made{paper.subject, html::write(paper, {producer(), shared.style_sheet, drawings_of(paper, shared)}, troubles)};
  tell_broken(loaded, troubles);
  return made;
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

namespace {

/// How a kind of paper of ours begins, and where it says what it is. Words like ours elsewhere in a file (a mail that
/// carries a paper, a page that quotes one) do not make it ours.
struct Kind {
  std::string_view magic, origin;
  std::string_view from, to;  ///< what it says of itself stands from the one to the other, the first time they come
  std::string (*opening)(const std::string& subject);
  const char* end;

  [[nodiscard]] std::string_view about(std::string_view bytes) const {
    const auto begin = bytes.find(from);
    const auto last = begin == std::string_view::npos ? begin : bytes.find(to, begin);
    return last == std::string_view::npos ? std::string_view() : bytes.substr(begin, last + to.size() - begin);
  }
};

const Kind* kind_of(std::string_view bytes) {
  static const Kind kinds[] = {
      {"%PDF-1.7\n%\xB7\xBE\xAD\xAA\n", "<pdf:Producer>soundsill ", "<?xpacket begin", "<?xpacket end",
       &pdf::subject_opening, "<"},
      {"%PDF-1.4\n%\xB7\xBE\xAD\xAA\n", "<pdf:Producer>soundsill ", "<?xpacket begin", "<?xpacket end",
       &pdf::subject_opening, "<"},
      {"<!DOCTYPE html>\n<html", html::origin(), "<head>", "<style>", &html::subject_opening, "\""},
      {"<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\"", svg::origin(),
       "<metadata>", "</metadata>", &svg::subject_opening, "<"},
  };
  for (const Kind& kind : kinds)
    if (bytes.starts_with(kind.magic) && kind.about(bytes).find(kind.origin) != std::string_view::npos) return &kind;
  return nullptr;
}

}  // namespace

Standing standing(const std::string& path, const std::string& subject, const std::string& draft_word,
                  const Files& files) {
  const FileRead old = files.read(path, most::paper_bytes);
  if (!old.bytes) return files.exists(path) ? Standing::foreign : Standing::nothing;
  if (old.bytes->empty()) return Standing::nothing;
  const Kind* kind = kind_of(*old.bytes);
  if (!kind) return Standing::foreign;
  const auto says = [&](const std::string& what, const std::string& end) {
    return kind->about(*old.bytes).find(kind->opening(what) + end) != std::string_view::npos;
  };
  return says(subject, kind->end) || says(draft_word + ": ", "") ? Standing::same : Standing::another;
}

}  // namespace soundsill::cli
