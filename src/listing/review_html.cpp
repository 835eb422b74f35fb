// Serves listing/review.h. The review as one page that needs nothing else: readable without its script, sorted and
// filtered with it.
#include <fmt/format.h>

#include "listing/review.h"
#include "source/markup.h"

namespace soundsill::listing {
namespace {

/// A text of a case, as it may stand in the page.
std::string shown(std::string_view text) { return escaped(safe_line(text)); }

constexpr std::string_view style = R"css(
:root { color-scheme: light; }
body { font: 16px/1.45 system-ui, sans-serif; color: #1b2430; background: #ffffff; margin: 1.5rem; }
h1 { font-size: 1.5rem; margin: 0 0 .25rem; }
p { max-width: 70ch; }
form { display: flex; flex-wrap: wrap; gap: 1rem; align-items: end; margin: 1rem 0; }
label { display: block; font-weight: 600; }
input, select { font: inherit; padding: .35rem .5rem; border: 1px solid #5b6775; border-radius: 4px; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; width: 100%; }
caption { text-align: left; padding-bottom: .5rem; color: #3c4856; }
th, td { text-align: left; vertical-align: top; padding: .45rem .6rem; border-bottom: 1px solid #c9d1da; }
thead th { border-bottom: 2px solid #1b2430; white-space: nowrap; }
thead button { font: inherit; font-weight: 700; color: inherit; background: none; border: 0; padding: 0; cursor: pointer;
  text-decoration: underline dotted; }
th[aria-sort=ascending] button::after { content: " \2191"; content: " \2191" / ""; }
th[aria-sort=descending] button::after { content: " \2193"; content: " \2193" / ""; }
button:focus-visible, input:focus-visible, select:focus-visible, summary:focus-visible { outline: 3px solid #1d5fa8;
  outline-offset: 2px; }
td.n { text-align: right; font-variant-numeric: tabular-nums; }
.state { font-weight: 700; }
.state, .day, tbody th { white-space: nowrap; }
.bad::before { content: "\25A0  "; } .good::before { content: "\25CB  "; }
.code { color: #3c4856; }
ul { margin: .25rem 0 0; padding-left: 1.1rem; }
@media print { form { display: none; } thead button { text-decoration: none; } }
)css";

constexpr std::string_view script = R"js(
const table = document.querySelector('table'), body = table.tBodies[0];
const box = document.getElementById('words'), pick = document.getElementById('pick');
const count = document.getElementById('count');
function filter() {
  const words = box.value.toLowerCase(); let shown = 0;
  for (const row of body.rows) {
    const fits = row.textContent.toLowerCase().includes(words) &&
      (!pick.value || row.dataset.asks.split('|').includes(pick.value));
    row.hidden = !fits; shown += fits;
  }
  count.textContent = shown + ' of ' + body.rows.length + ' cases shown';
}
document.querySelector('form').addEventListener('submit', event => event.preventDefault());
box.addEventListener('input', filter); pick.addEventListener('change', filter);
for (const button of table.querySelectorAll('thead button')) button.addEventListener('click', () => {
  const head = button.closest('th'), column = head.cellIndex;
  const down = head.getAttribute('aria-sort') === 'ascending';
  for (const other of table.tHead.rows[0].cells) other.removeAttribute('aria-sort');
  head.setAttribute('aria-sort', down ? 'descending' : 'ascending');
  const key = row => row.cells[column].dataset.key ?? row.cells[column].textContent.trim();
  const rows = [...body.rows].sort((a, b) => key(a).localeCompare(key(b), 'en', { numeric: true }));
  if (down) rows.reverse();
  body.append(...rows);
});
filter();
)js";

struct Head {
  const char* title;
  bool number;
};
constexpr Head heads[] = {{"State", false},       {"Case", false},
                          {"Address", false},     {"Visited", false},
                          {"Closing", false},     {"Holds until", false},
                          {"Warranty to", false}, {"Errors", true},
                          {"Warnings", true},     {"What asks for attention", false}};

class HtmlReview : public ReviewWriter {
 public:
  HtmlReview(ReviewFrame frame, Put put) : frame_(std::move(frame)), put_(std::move(put)) {}

  bool begin() override {
    std::string out =
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
    out += "<title>Review of cases, " + print_long(frame_.today) + "</title>\n<style>" + std::string(style) +
           "</style>\n</head>\n<body>\n<main>\n<h1>Review of cases</h1>\n<p>As of " + print_long(frame_.today) +
           "; what falls due within " + std::to_string(frame_.within) + " days is named.</p>\n";
    out +=
        "<form role=\"search\"><div><label for=\"words\">Show rows that hold</label><input id=\"words\" "
        "type=\"search\"></div><div><label for=\"pick\">that ask for attention because of</label><select id=\"pick\">"
        "<option value=\"\">anything, or nothing</option>";
    for (const std::string_view w : attention_words) out += fmt::format("<option>{}</option>", w);
    out +=
        "</select></div><p id=\"count\" role=\"status\"></p></form>\n<div class=\"wide\" role=\"region\" "
        "aria-label=\"Table of cases\" tabindex=\"0\">\n<table>\n<caption>One row for each case. A button in the "
        "head of a column sorts by it.</caption>\n<thead><tr>";
    for (const Head& h : heads)
      out += fmt::format("<th scope=\"col\"><button type=\"button\">{}</button></th>", h.title);
    return put_(out + "</tr></thead>\n<tbody>\n");
  }

  bool row(const ReviewRow& row) override {
    const auto date = [](const std::optional<Date>& d) {
      return d ? "<td class=\"day\" data-key=\"" + print(*d) + "\">" + print_long(*d) + "</td>"
               : std::string("<td data-key=\"\"></td>");
    };
    std::string asks;
    for (const Attention a : row.attention)
      asks += (asks.empty() ? "" : "|") + std::string(attention_words[static_cast<std::size_t>(a)]);
    const bool ready = row.errors == 0;
    std::string out = "<tr data-asks=\"" + shown(asks) + "\"><td><span class=\"state " +
                      (ready ? "good\">ready" : "bad\">not ready") + "</span></td><th scope=\"row\">" +
                      shown(row.number.empty() ? "not known" : row.number) + "</th><td>" + shown(row.address) +
                      "<div class=\"code\">" + shown(row.path) + "</div></td>";
    out += date(row.visited) + date(row.closing) + date(row.holds_until) + date(row.renewal);
    out += fmt::format("<td class=\"n\">{}</td><td class=\"n\">{}</td><td>", row.errors, row.warnings);
    out += notes(row) + "</td></tr>\n";
    return put_(out);
  }

  bool end(const ReviewTally& t) override {
    return put_(fmt::format(
        "</tbody>\n</table>\n</div>\n<p>{} {}, {} of them not ready.</p>\n</main>\n<script>{}"
        "</script>\n</body>\n</html>\n",
        t.cases, t.cases == 1 ? "case" : "cases", t.asking[static_cast<std::size_t>(Attention::not_ready)], script));
  }

 private:
  static std::string notes(const ReviewRow& row) {
    std::string out;
    for (const Attention a : row.attention)
      if (a != Attention::not_ready)
        out += "<li>" + std::string(attention_words[static_cast<std::size_t>(a)]) + "</li>";
    for (const std::string& kept : row.kept) out += "<li>" + shown(kept) + "</li>";
    for (const ToldFault& f : row.faults)
      out += fmt::format("<li>{}: {} <span class=\"code\">[{}{}]</span></li>",
                         f.severity() == Severity::error ? "error" : "warning", shown(f.what), info(f.rule).code,
                         f.line ? fmt::format(", line {}", f.line) : std::string());
    return out.empty() ? out : "<ul>" + out + "</ul>";
  }

  ReviewFrame frame_;
  Put put_;
};

}  // namespace

std::unique_ptr<ReviewWriter> html_review(ReviewFrame frame, Put put) {
  return std::make_unique<HtmlReview>(std::move(frame), std::move(put));
}

}  // namespace soundsill::listing
