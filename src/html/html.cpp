#include "html/html.h"

#include "html/page.h"

namespace soundsill::html {

using namespace document;

namespace {

constexpr std::string_view origin_words = "<meta name=\"generator\" content=\"soundsill ";

std::string running(const Document& document, const std::string& slot) {
  const auto found = document.running.find(slot);
  return found == document.running.end() ? std::string() : found->second;
}

// Nothing in the style sheet can end its element.
std::string inside_style(std::string css) {
  for (std::size_t at = 0; (at = css.find('<', at)) != std::string::npos;) css.replace(at, 1, "\\3C ");
  return css;
}

std::string head(const Document& document, const Options& options) {
  std::string out = "<head>\n<meta charset=\"utf-8\"/>\n";
  // Nothing runs, and nothing is fetched, wherever the page is opened.
  out +=
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; style-src "
      "'unsafe-inline'\"/>\n";
  out += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n";
  out += "<meta name=\"generator\"" + attribute("content", options.producer) + "/>\n";
  out += subject_opening(document.subject) + "\"/>\n";
  if (!document.author.empty()) out += "<meta name=\"author\"" + attribute("content", document.author) + "/>\n";
  out += "<title>" + escaped(document.title) + "</title>\n";
  return out + "<style>\n" + inside_style(options.style) + "</style>\n</head>\n";
}

// The headings of the parts.
void contents(Writer& writer) {
  std::string list;
  for (const Section& section : writer.document.sections)
    for (const Block& block : section.blocks)
      if (const auto* h = std::get_if<Heading>(&block.kind); h && h->level <= 2 && h->bookmark && !h->id.empty()) {
        std::string words;
        for (const Run& run : h->runs) words += run.text;
        list += "<li><a" + attribute("href", "#" + anchor(h->id)) + ">" + escaped(words) + "</a></li>\n";
      }
  const std::string name = running(writer.document, "contents");
  if (!list.empty() && !name.empty())
    writer.out += "<nav" + attribute("aria-label", name) + ">\n<ul>\n" + list + "</ul>\n</nav>\n";
}

void section(Writer& writer, const Section& s) {
  const auto* first = s.blocks.empty() ? nullptr : std::get_if<Heading>(&s.blocks.front().kind);
  writer.out += "<section" + id_of(s.id) + class_of(s.name);
  if (first && !first->id.empty()) writer.out += attribute("aria-labelledby", anchor(first->id));
  writer.out += ">\n";
  writer.blocks(s.blocks);
  writer.out += "</section>\n";
}

}  // namespace

std::string_view origin() { return origin_words; }

std::string subject_opening(const std::string& subject) {
  return "<meta name=\"description\" content=\"" + escaped(subject);
}

std::string write(const Document& document, const Options& options, PhotoTroubles& troubles) {
  Writer writer{document, options, troubles, ids(document)};
  std::string& out = writer.out;
  out = "<!DOCTYPE html>\n<html" + attribute("lang", document.language) + ">\n" + head(document, options) + "<body>\n";
  if (!document.draft.empty()) out += "<p class=\"draft\">" + escaped(document.draft) + "</p>\n";
  out += "<header>\n<p>" + escaped(running(document, "address")) + "</p>\n<p>" + escaped(running(document, "case")) +
         "</p>\n</header>\n";
  contents(writer);
  out += "<main>\n";
  for (const Section& s : document.sections) section(writer, s);
  out += "</main>\n<footer>\n<p>" + escaped(running(document, "company")) + "</p>\n</footer>\n</body>\n</html>\n";
  return std::move(out);
}

}  // namespace soundsill::html
