// 500 made-up cases through the whole pipeline, checked on their pages: no text lies on another or leaves its box.
#include "support/papers.h"

using namespace soundsill;
using namespace soundsill::testing;

namespace {

/// The same numbers on every machine.
class Dice {
 public:
  explicit Dice(std::uint32_t seed) : state_(seed * 2654435761U + 12345U) {}
  int below(int n) {
    state_ = state_ * 1664525U + 1013904223U;
    return static_cast<int>((state_ >> 8U) % static_cast<std::uint32_t>(n));
  }
  bool one_in(int n) { return below(n) == 0; }

 private:
  std::uint32_t state_;
};

/// What a made-up case is like.
struct Made {
  std::string case_yaml;
  std::map<std::string, std::string> photos;
};

const std::string& photo_bytes() {
  static const std::string bytes =
      outside_text(std::string(SOUNDSILL_ROOT) + "/examples/heron-lane/photos/3-close.jpg");
  return bytes;
}

class CaseMaker {
 public:
  explicit CaseMaker(std::uint32_t seed) : dice_(seed), seed_(seed) {}

  Made make() {
    // Every tenth case is one of the hard ones.
    const int findings = seed_ % 10 == 0 ? 0 : seed_ % 50 == 5 ? 60 : seed_ % 50 == 7 ? 12 : 1 + dice_.below(9);
    photos_ = seed_ % 50 == 7 ? 40 : dice_.below(3);
    const int wide = 24 + 4 * dice_.below(8), deep = 20 + 4 * dice_.below(6);
    wide_ = wide;
    deep_ = deep;
    Made made;
    std::string& y = made.case_yaml;
    y = "format: 1\nform: us-general\ncase: {number: \"" + std::to_string(seed_) +
        "\", revision: 1, purpose: owner's request}\npeople: {inspector: {name: \"" + name() + "\"}, owner: {name: \"" +
        name() + "\"}}\nproperty:\n  address: {street: \"" + words(4) + "\", city: \"" + words(1) +
        "\", state: NC, zip: \"27000\"}\n  structures:\n    - name: house\n      soil: loam\n      parts: [{name: "
        "main, "
        "foundation: crawl space, crawl height: 30\", outline: [E " +
        std::to_string(wide) + "', S " + std::to_string(deep) + "', W " + std::to_string(wide) + "', N " +
        std::to_string(deep) +
        "']}]\n      walls: [{walls: all, kind: hollow block, thick: 8\", footing: {outside: 18\", inside: 12\", known "
        "by: "
        "dug}}]\n";
    if (!dice_.one_in(3))
      y += "      piers: [{from: [6', 6'], every: [" + std::to_string(5 + dice_.below(4)) + "', 6'], count: [" +
           std::to_string(1 + dice_.below(3)) + ", " + std::to_string(1 + dice_.below(2)) +
           "], size: [16\", 16\"], kind: hollow block, footing: 12\", known by: dug}]\n";
    y += "      areas:\n";
    for (int i = 0; i < 1 + dice_.below(5); ++i)
      y += "        - {name: \"" + words(3) + "\", seen: partly, region: [[1', 1'], [" + std::to_string(3 + i) +
           "', 1'], [3', 6']], because: \"" + words(30) + "\"}\n";
    y += "visits: [{id: one, date: 2026-03-05}]\nfindings:";
    y += findings == 0 ? " []\n" : "\n";
    for (int n = 1; n <= findings; ++n) y += finding(n, made);
    y += "work:";
    y += findings == 0 ? " []\n" : "\n";
    for (int n = 1; n <= findings; ++n)
      y += "  - {id: w" + std::to_string(n) + ", answers: [" + std::to_string(n) +
           "], do: remove wood scraps, in: house, by: contractor, proof: \"" + words(6) + "\"}\n";
    if (findings > 0)
      y += "  - {id: soil, answers: [1], do: treat soil, in: house, walls: all, sides: both, piers: all}\n";
    if (findings > 0) y += "options: [{id: full, name: \"" + words(5) + "\", work: all, product: p, warranty: none}]\n";
    return made;
  }

 private:
  std::string finding(int n, Made& made) {
    static const char* kinds[] = {
        "kind: condition, condition: wood scraps",
        "kind: evidence, organism: subterranean termites, state: past, live seen: no, signs: [dry tubes]",
        "kind: evidence, organism: subterranean termites, state: active, live seen: yes, basis: [live workers]",
        "kind: damage, organism: subterranean termites"};
    std::string y = "  - {no: " + std::to_string(n) + ", in: house, " + kinds[dice_.below(4)] + ", at: [" +
                    std::to_string(1 + dice_.below(wide_ - 1)) + "', " + std::to_string(1 + dice_.below(deep_ - 1)) +
                    "'], where: \"" + words(1 + dice_.below(12)) + "\", photos: [";
    const int here = photos_ > 20 ? 4 : std::min(photos_, 2);
    for (int i = 0; i < here && photo_ < photos_; ++i) {
      const std::string file = "photos/" + std::to_string(++photo_) + ".jpg";
      made.photos[file] = photo_bytes();
      y += std::string(i ? ", " : "") + "{file: " + file + ", shows: \"" + words(3 + dice_.below(20)) + "\"}";
    }
    return y + "]}\n";
  }

  std::string name() { return dice_.one_in(3) ? "Jo Abernethy-Łódź de la Peña y Müller-Ångström" : words(2); }

  std::string words(int count) {
    static const char* stock[] = {"sill", "Łódź",  "ñandú", "café", "½",    "20 °C",      "12 × 16", "of",
                                  "the",  "joist", "under", "bath", "west", "foundation", "a",       "perimeter"};
    std::string all;
    for (int i = 0; i < count; ++i) all += (i ? " " : "") + std::string(stock[dice_.below(16)]);
    if (dice_.one_in(25)) all += " " + std::string(300, static_cast<char>('a' + dice_.below(26)));
    return all;
  }

  Dice dice_;
  std::uint32_t seed_;
  int photos_ = 0, photo_ = 0, wide_ = 0, deep_ = 0;
};

}  // namespace

TEST_CASE("500 made-up cases: no text lies on another or leaves its box") {
  const std::string company = file_text("tests/rules/company.yaml");
  int most_findings = 0, least_findings = 99, most_photos = 0, pages_in_all = 0;
  for (std::uint32_t seed = 0; seed < 500; ++seed) {
    const Made made = CaseMaker(seed).make();
    CaseTexts texts{made.case_yaml, edited(company, "id: example-a", "id: p")};
    texts.form_yaml = file_text("forms/us-general.yaml");
    const CaseRun run(std::move(texts));
    INFO("seed " << seed << "\n" << told(run.faults));
    REQUIRE(run.basis);
    const document::Document d =
        document::packet({*run.basis, run.treatments, run.estimates, english_words(), made.photos, seed % 9 == 0});
    const page::Template& look = look_of(seed % 2 == 0 ? packet_look : other_look);
    const page::Pages pages = laid_out(d, look);
    CHECK(wrong(d, pages, look) == "");
    const int findings = static_cast<int>(items(run.c->findings).size());
    most_findings = std::max(most_findings, findings);
    least_findings = std::min(least_findings, findings);
    most_photos = std::max(most_photos, static_cast<int>(d.photos.size()));
    pages_in_all += static_cast<int>(pages.pages.size());
  }
  // What was meant to be tried was tried.
  CHECK(most_findings == 60);
  CHECK(least_findings == 0);
  CHECK(most_photos == 40);
  CHECK(pages_in_all > 1500);
}
