// Serves html/page.h. Headings, words, photos, drawings, cards and lines to sign.
#include <algorithm>

#include "html/page.h"
#include "photo/photo.h"

namespace soundsill::html {

using namespace document;

namespace {

constexpr int photo_side = 1000;  // pixels: enough for a screen, small enough for a mail
constexpr int photo_quality = 80;

/// Arrows and circles over a photo; its words say the same.
std::string signs(const Photo& p, int width, int height) {
  const auto x = [&](const Spot& s) { return std::int64_t{s.x - p.part.corner.x} * width / std::max(p.part.width, 1); };
  const auto y = [&](const Spot& s) {
    return std::int64_t{s.y - p.part.corner.y} * height / std::max(p.part.height, 1);
  };
  std::string shapes;
  for (const PhotoSign& sign : p.signs) {
    const std::int64_t ax = x(sign.from), ay = y(sign.from), bx = x(sign.to), by = y(sign.to), dx = bx - ax,
                       dy = by - ay;
    const auto point = [](std::int64_t px, std::int64_t py) { return std::to_string(px) + " " + std::to_string(py); };
    const std::int64_t square = dx * dx + dy * dy;
    std::int64_t length = 0;
    while ((length + 1) * (length + 1) <= square) ++length;
    if (length == 0) continue;
    if (sign.kind == PhotoSign::Kind::circle) {
      const std::string r = std::to_string(length);
      shapes += "M" + point(ax - length, ay) + "a" + r + " " + r + " 0 1 0 " + std::to_string(2 * length) + " 0a" + r +
                " " + r + " 0 1 0 -" + std::to_string(2 * length) + " 0";
      continue;
    }
    const std::int64_t head = std::min<std::int64_t>(std::max(width, height) / 25, length * 2 / 3);
    const auto barb = [&](std::int64_t side) {
      return point(bx - dx * head / length - side * dy * head / (2 * length),
                   by - dy * head / length + side * dx * head / (2 * length));
    };
    shapes += "M" + point(ax, ay) + "L" + point(bx, by) + "M" + barb(1) + "L" + point(bx, by) + "L" + barb(-1);
  }
  const std::string path = "<path" + attribute("d", shapes) + "/>";
  return "<svg xmlns=\"http://www.w3.org/2000/svg\" aria-hidden=\"true\"" +
         attribute("viewBox", "0 0 " + std::to_string(width) + " " + std::to_string(height)) + "><g class=\"casing\">" +
         path + "</g><g class=\"sign\">" + path + "</g></svg>";
}

}  // namespace

std::string Writer::runs(const Runs& all) const {
  std::string text;
  for (const Run& run : all) {
    if (run.text.empty()) continue;
    std::string words = escaped(run.text);
    for (std::size_t at = 0; (at = words.find('\n', at)) != std::string::npos;) words.replace(at, 1, "<br/>");
    if (run.look == Run::Look::strong) words = "<strong>" + words + "</strong>";
    if (run.look == Run::Look::quiet) words = "<span class=\"quiet\">" + words + "</span>";
    if (!run.lang.empty()) words = "<span" + attribute("lang", run.lang) + ">" + words + "</span>";
    if (is_address(run.link))
      words = "<a" + attribute("href", run.link) + ">" + words + "</a>";
    else if (ids.contains(run.link))
      words = "<a" + attribute("href", "#" + anchor(run.link)) + ">" + words + "</a>";
    text += words;
  }
  return text;
}

void Writer::blocks(const std::vector<Block>& all) {
  for (const Block& block : all) std::visit(*this, block.kind);
}

int Writer::next_level(int wanted) {
  level = std::clamp(wanted, 1, std::min(level + 1, 6));
  return level;
}

void Writer::heading(const Heading& h) {
  const std::string tag = "h" + std::to_string(next_level(h.level));
  out += "<" + tag + id_of(h.id) + ">" + runs(h.runs) + "</" + tag + ">\n";
}

void Writer::operator()(const Heading& h) { heading(h); }

void Writer::operator()(const Paragraph& p) { out += "<p" + class_of(p.style) + ">" + runs(p.runs) + "</p>\n"; }

void Writer::operator()(const List& list) {
  if (list.items.empty()) return;
  const std::string tag = list.marker == List::Marker::number ? "ol" : "ul";
  out += "<" + tag + class_of(list.style) + ">\n";
  for (const Runs& item : list.items) out += "<li>" + runs(item) + "</li>\n";
  out += "</" + tag + ">\n";
}

void Writer::operator()(const Facts& facts) {
  if (facts.facts.empty()) return;
  out += "<dl" + attribute("class", facts.columns >= 3 ? "facts three" : "facts") + ">\n";
  for (const Fact& fact : facts.facts)
    out += "<div><dt>" + escaped(fact.name) + "</dt><dd>" + runs(fact.value) + "</dd></div>\n";
  out += "</dl>\n";
}

void Writer::photo(const Photo& p) {
  out += "<figure>\n";
  const auto bytes = document.photos.find(p.key);
  const photo::Part part{p.part.corner.x, p.part.corner.y, p.part.width, p.part.height};
  const auto made = bytes == document.photos.end()
                        ? photo::Outcome<photo::Placed>{}
                        : photo::prepare(bytes->second, photo_side, photo_side, photo_quality, part);
  const std::string lang = p.lang.empty() ? "" : attribute("lang", p.lang);
  if (made) {
    const int width = made.value->width, height = made.value->height;
    if (!p.signs.empty()) out += "<div class=\"marked\">";
    out += "<img" + attribute("src", data_address("image/jpeg", made.value->jpeg)) + attribute("alt", p.alt) + lang +
           attribute("width", std::to_string(width)) + attribute("height", std::to_string(height)) + "/>";
    if (!p.signs.empty()) out += signs(p, width, height) + "</div>";
    out += "\n";
  } else {
    if (!made.trouble.empty()) troubles.emplace(p.key, made.trouble);
    out += "<p class=\"missing\"" + lang + ">" + escaped(p.alt) + "</p>\n";
  }
  if (!p.caption.empty()) out += "<figcaption>" + runs(p.caption) + "</figcaption>\n";
  out += "</figure>\n";
}

void Writer::operator()(const Photos& photos) {
  out += "<div class=\"photos\">\n";
  for (const Photo& p : photos.photos) photo(p);
  out += "</div>\n";
}

void Writer::operator()(const Drawing& d) {
  const auto picture = options.drawings.find(d.id);
  const bool drawn = picture != options.drawings.end();
  out += "<figure class=\"drawing\"" + (drawn ? std::string() : id_of(d.id)) + ">\n";
  out += drawn ? picture->second : "<p>" + escaped(d.alt) + "</p>\n";
  if (!d.caption.empty()) out += "<figcaption>" + runs(d.caption) + "</figcaption>\n";
  out += "</figure>\n";
}

void Writer::operator()(const Signatures& all) {
  for (const Signature& s : all.lines) {
    out += "<div class=\"signature\">\n<p>" + runs(s.statement) + "</p>\n<div class=\"signed\">";
    out += "<p class=\"name\">" + escaped(s.name.value_or("")) + "</p><p class=\"date\">" +
           escaped(s.date.value_or("")) + "</p></div>\n<div class=\"labels\"><p><strong>" + escaped(s.who) +
           "</strong></p><p>" + escaped(all.name_label) + "</p><p>" + escaped(all.date_label) + "</p></div>\n</div>\n";
  }
}

void Writer::operator()(const Card& card) {
  out += "<article" + id_of(card.id) + attribute("class", "card " + anchor(card.tone));
  const std::string labelled = anchor(card.heading.id);
  if (!labelled.empty()) out += " aria-labelledby=\"" + labelled + "\"";
  out += ">\n<p class=\"tag\">";
  if (!card.number.empty()) out += "<span class=\"no\">" + escaped(card.number) + "</span> ";
  out += escaped(card.tag) + "</p>\n";
  const int before = level;
  heading(card.heading);
  blocks(card.blocks);
  level = std::max(before, 1);
  out += "</article>\n";
}

void Writer::operator()(const Figures& figures) {
  out += "<div class=\"figures\">\n";
  for (const Figure& f : figures.figures)
    out += "<p><span class=\"large\">" + escaped(f.large) + "</span> <span class=\"under\">" + escaped(f.small) +
           "</span></p>\n";
  out += "</div>\n";
}

void Writer::operator()(const Bars& bars) {
  if (bars.bars.empty()) return;
  const std::int64_t whole = std::max<std::int64_t>(1, bars.whole);
  out += "<ul class=\"bars\">\n";
  for (const Bar& bar : bars.bars) {
    const std::int64_t part = std::clamp<std::int64_t>(bar.part, 0, whole);
    const std::int64_t tenths = (part * 1000 + whole / 2) / whole;
    out += "<li><span class=\"label\">" + escaped(bar.label) +
           "</span> <span class=\"track\"><span style=\"width:" + std::to_string(tenths / 10) + "." +
           std::to_string(tenths % 10) + "%\"></span></span> <span class=\"value\">" + escaped(bar.value) +
           "</span></li>\n";
  }
  out += "</ul>\n";
}

}  // namespace soundsill::html
