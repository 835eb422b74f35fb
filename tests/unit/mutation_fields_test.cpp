// From each clean example every single field is taken away or changed. What a required key says is never missed; every
// other change is told as a fault or is seen in a paper, but for the keys listed here with the reason.
#include <catch2/catch.hpp>
#include <filesystem>
#include <map>
#include <set>

#include "document/packet.h"
#include "support/case_harness.h"
#include "support/mutations.h"

using namespace soundsill;
using namespace soundsill::testing;

namespace {

/// "block: key" -> why a change of it may pass unseen.
const std::map<std::string, std::string>& harmless() {
  static const std::map<std::string, std::string> list = {
      {"a person: email", "never printed; the office alone uses it"},
  };
  return list;
}

const document::Words& english() {
  static Sources sources;
  static const document::Words words = [] {
    Faults faults;
    return *document::read_words(sources.add("words.en.yaml", file_text("templates/words.en.yaml")), faults);
  }();
  return words;
}

struct Outcome {
  std::size_t errors = 0;
  std::string faults, papers;
};

/// What is told of a case, and every string that its papers hold.
Outcome outcome(const CaseTexts& texts, const std::set<std::string>& photos) {
  CaseRun run(texts);
  run.check_rules();
  Outcome out{run.faults.errors(), told(run.faults), {}};
  if (!run.basis || out.errors > 0) return out;
  std::map<std::string, std::string> bytes;
  for (const std::string& path : photos) bytes[path] = "a photo";
  const document::PacketInput input{*run.basis, run.treatments, run.estimates, english(), bytes, false, false};
  const document::Document paper = document::packet(input);
  for (const std::string& s : document::strings(paper)) out.papers += s + "\n";
  for (const auto& [slot, words] : paper.running) out.papers += words + "\n";
  for (const auto& [path, photo] : paper.photos) out.papers += path + "\n";
  out.papers += paper.subject + paper.created + paper.author;
  return out;
}

CaseTexts example(const std::string& name) {
  CaseTexts texts{file_text("examples/" + name + "/case.yaml"), file_text("examples/company.yaml")};
  const auto at = texts.case_yaml.find("form: ") + 6;
  texts.form_yaml = file_text("forms/" + texts.case_yaml.substr(at, texts.case_yaml.find('\n', at) - at) + ".yaml");
  return texts;
}

std::size_t count_keys(const yaml::Block& block, std::set<const yaml::Block*>& seen) {
  if (!seen.insert(&block).second) return 0;
  std::size_t keys = block.keys.size();
  for (const yaml::Key& key : block.keys)
    if (key.shape.block) keys += count_keys(key.shape.block(), seen);
  return keys;
}

std::vector<std::string> examples() {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(std::string(SOUNDSILL_ROOT) + "/examples"))
    if (std::filesystem::exists(entry.path() / "case.yaml")) names.push_back(entry.path().filename().string());
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

TEST_CASE("every field of every example counts") {
  for (const std::string& name : examples()) {
    const CaseTexts clean = example(name);
    std::set<std::string> photos;
    {
      const CaseRun run(clean);
      REQUIRE(run.c);
      for (const PhotoUse& use : photos_of(*run.c)) photos.insert(use.photo->file.value_or(""));
    }
    const Outcome before = outcome(clean, photos);
    INFO(name);
    CHECK(before.faults == "");
    const Mutations mutations(clean.case_yaml);
    CHECK(mutations.all.size() > 100);
    for (const Mutation& one : mutations.all) {
      INFO(one.block << ": " << one.key << " " << one.how);
      CaseTexts texts = clean;
      texts.case_yaml = one.text;
      const Outcome after = outcome(texts, photos);
      if (one.required && one.how == "removed") CHECK(after.errors > 0);
      const bool seen = after.faults != before.faults || after.papers != before.papers;
      if (!seen && harmless().count(one.block + ": " + one.key) == 0)
        FAIL_CHECK(one.block << ": " << one.key << " " << one.how << " and nobody would notice");
    }
  }
}

TEST_CASE("the keys that may change unseen are few") {
  std::set<const yaml::Block*> seen;
  const std::size_t keys = count_keys(Case::block(), seen);
  CHECK(keys > 150);
  CHECK(harmless().size() * 100 <= keys * 15);
}
