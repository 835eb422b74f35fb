// Whole papers of the examples and of made-up cases, laid out in any template, without the program round it.
#pragma once

#include <catch2/catch.hpp>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "layout/layout.h"
#include "packet/packet.h"
#include "support/case_harness.h"
#include "support/pages_check.h"
#include "support/words.h"
#include "template/template.h"

namespace soundsill::testing {

/// The template of the packet, and another company's: A4, two columns, sections in another order.
inline const page::Template& look_of(const std::string& path) {
  static std::map<std::string, page::Template> known;
  if (const auto found = known.find(path); found != known.end()) return found->second;
  static Sources sources;
  Faults faults;
  auto read = page::read_template(sources.add(path, file_text(path)), faults);
  INFO(told(faults));
  REQUIRE(read);
  return known.emplace(path, std::move(*read)).first->second;
}
inline constexpr const char* packet_look = "templates/packet.xml";
inline constexpr const char* other_look = "tests/data/a4-two-columns/packet.xml";

inline std::string outside_text(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  INFO(path);
  REQUIRE(in);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline const font::Faces& all_faces() {
  static std::map<std::string, std::string> bytes;
  static font::Faces faces;
  static const bool ready = [] {
    for (const auto& [key, file] : look_of(packet_look).faces) {
      const std::string folder = file.starts_with("Lato") ? "lato/" : "dejavu/";
      bytes[key] = outside_text("/usr/share/fonts/truetype/" + folder + file + ".ttf");
      faces.add(key, bytes[key]);
    }
    faces.set_fallback(look_of(packet_look).fallback);
    return true;
  }();
  (void)ready;
  return faces;
}

inline const page::Hyphens& hyphens() {
  static const page::Hyphens made(outside_text("/usr/share/hyphen/hyph_en_US.dic"));
  return made;
}

/// An example as far as its paper, with the photos of its folder.
struct ExamplePaper {
  CaseRun run;
  std::map<std::string, std::string> photos;
  document::Document document;

  explicit ExamplePaper(const std::string& name, bool draft = false) : run(texts_of(name)) {
    const std::filesystem::path folder = std::string(SOUNDSILL_ROOT) + "/examples/" + name;
    if (std::filesystem::exists(folder / "photos"))
      for (const auto& entry : std::filesystem::directory_iterator(folder / "photos"))
        photos["photos/" + entry.path().filename().string()] = outside_text(entry.path().string());
    INFO(name << told(run.faults));
    REQUIRE(run.basis);
    document = document::packet({*run.basis, run.treatments, run.estimates, english_words(), photos, draft});
  }

 private:
  static CaseTexts texts_of(const std::string& name) {
    CaseTexts texts{file_text("examples/" + name + "/case.yaml"), file_text("examples/company.yaml")};
    const auto at = texts.case_yaml.find("\nform: ") + 7;
    texts.form_yaml = file_text("forms/" + texts.case_yaml.substr(at, texts.case_yaml.find('\n', at) - at) + ".yaml");
    return texts;
  }
};

inline page::Pages laid_out(const document::Document& d, const page::Template& look) {
  Faults faults;
  page::Pages pages = page::lay_out(d, look, all_faces(), faults, &hyphens());
  INFO(told(faults));
  CHECK(faults.all().empty());
  return pages;
}

/// The document with its sections as a template orders them.
inline document::Document in_order_of(document::Document d, const page::Template& look) {
  std::vector<document::Section> ordered;
  for (const auto& style : look.sections)
    for (auto& s : d.sections)
      if (s.name == style.name) ordered.push_back(std::move(s));
  d.sections = std::move(ordered);
  return d;
}

/// What is wrong with pages, in words; empty when every invariant holds.
inline std::string wrong(const document::Document& d, const page::Pages& pages, const page::Template& look) {
  std::string all;
  const auto take = [&](const char* what, const std::vector<std::string>& list) {
    for (const std::string& s : list) all += std::string(what) + ": " + s + "\n";
  };
  take("lost", page::lost_strings(d, pages));
  take("off the sheet", page::off_sheet(pages));
  take("overlap", page::overlapping_texts(pages));
  take("leaves its box", page::leaving_texts(pages, look.sheet));
  take("tree", page::broken_tree(pages));
  take("order", page::out_of_order(in_order_of(d, look), pages));
  return all;
}

}  // namespace soundsill::testing
