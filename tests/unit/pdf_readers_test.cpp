// What programs of others find in the file. A test is silent where its program is not installed.
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <memory>

#include "pdf/pdf.h"
#include "unit/pdf_bytes.h"
#include "unit/pdf_sample.h"

using namespace soundsill;
using test::count;
using test::has;

namespace {

struct Said {
  int status = 0;
  std::string text;  // both streams
};

Said run(const std::string& command) {
  Said said;
  std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(("LC_ALL=C.UTF-8 " + command + " 2>&1").c_str(), "r"), pclose);
  REQUIRE(pipe);
  std::array<char, 4096> buffer{};
  while (const std::size_t n = std::fread(buffer.data(), 1, buffer.size(), pipe.get()))
    said.text.append(buffer.data(), n);
  const int status = pclose(pipe.release());
  said.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return said;
}

bool installed(const std::string& program) {
  if (run("sh -c 'command -v " + program + "'").status == 0) return true;
  WARN(program + " is not installed: nothing was tried with it");
  return false;
}

/// A folder of its own, gone at the end.
class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "soundsill-pdf-XXXXXX").string();
    REQUIRE(mkdtemp(name.data()) != nullptr);
    path_ = name;
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  std::string put(const std::string& name, const std::string& bytes) const {
    const auto path = path_ / name;
    std::ofstream(path, std::ios::binary) << bytes;
    return path.string();
  }
  [[nodiscard]] std::string path(const std::string& name) const { return (path_ / name).string(); }

 private:
  std::filesystem::path path_;
};

const std::string case_data = "{\"address\": \"12 Łódź Lane\"}\n";

std::string sample(pdf::Flavour flavour) {
  pdf::Options options;
  options.flavour = flavour;
  if (flavour == pdf::Flavour::pdfa_3a)
    options.attachment = pdf::Attachment{"case.json", case_data, "Data of the case", "application/json"};
  return pdf::write(test::sample_pages(), options);
}

constexpr std::array flavours{pdf::Flavour::pdfa_3a, pdf::Flavour::pdfa_1a};

}  // namespace

TEST_CASE("qpdf finds no fault") {
  if (!installed("qpdf")) return;
  const Folder folder;
  for (const auto flavour : flavours) {
    const Said said = run("qpdf --check " + folder.put("a.pdf", sample(flavour)));
    INFO(said.text);
    CHECK(said.status == 0);
    CHECK_FALSE(has(said.text, "WARNING"));
  }
}

TEST_CASE("pdftotext reads every letter and complains of nothing") {
  if (!installed("pdftotext")) return;
  const Folder folder;
  const Said said = run("pdftotext -raw " + folder.put("a.pdf", sample(pdf::Flavour::pdfa_3a)) + " -");
  CHECK(said.status == 0);
  CHECK(said.text ==
        "12 Łódź Lane\n"
        "Page 1 of 2\n"
        "What was seen at the back office\n"
        "Łódź ½ € ’ – all letters must come back. Subterranean termites were\n"
        "found in the sill (see the figure for AV Towers).\n"
        "Ask the office\n"
        "Ticked: ☐ office \U0001D54A\n"
        "1. Earth against wood.\n"
        "2. A leaking tap.\n"
        "No. Where and how much\n"
        "F1 sill by the side door $1,250.00\n"
        "F2 attic, not seen\n"
        "The drawing\n"
        "F1\n"
        "This paragraph runs over\n"
        "\f12 Łódź Lane\n"
        "Page 2 of 2\n"
        "the break of the page.\n"
        "F3 behind the freezer $80.00\n"
        "Fotos aus dem Keller\n"
        "Mud tubes on the sill, 4 \u03A9 and 4 \u2126.\n"
        "\f");
}

TEST_CASE("every face is embedded, a subset and has a map of letters") {
  if (!installed("pdffonts")) return;
  const Folder folder;
  for (const auto flavour : flavours) {
    const Said said = run("pdffonts " + folder.put("a.pdf", sample(flavour)));
    CHECK(count(said.text, "yes yes yes") == 3);
    CHECK(count(said.text, "Lato-Regular") == 1);
  }
}

TEST_CASE("pdfinfo sees a tagged file and what it says of itself") {
  if (!installed("pdfinfo")) return;
  const Folder folder;
  const std::string path = folder.put("a.pdf", sample(pdf::Flavour::pdfa_3a));
  const std::string said = run("pdfinfo -isodates " + path).text;
  for (const char* line :
       {"Title:           Inspection of 12 Łódź Lane – draft & notes\n", "Author:          Ruth Penn\n",
        "CreationDate:    2025-01-31T00:00:00Z\n", "Tagged:          yes\n", "Suspects:        no\n",
        "Pages:           2\n", "PDF version:     1.7\n"}) {
    INFO(said);
    CHECK(has(said, line));
  }
  CHECK(has(run("pdfinfo -url " + path).text, "https://example.com/a(b)?c=d"));
}

TEST_CASE("the tree of meaning reads in order") {
  if (!installed("pdfinfo")) return;
  const Folder folder;
  const std::string said = run("pdfinfo -struct-text " + folder.put("a.pdf", sample(pdf::Flavour::pdfa_3a))).text;
  INFO(said);
  CHECK(has(said,
            "    P (block)\n"
            "      \"Łódź ½ € ’ – all letters must come back. Subterranean termites were found in the sill (see \"\n"
            "      Link (inline)\n"
            "        \"the figure\"\n"));
  CHECK(has(said, "      \"This paragraph runs over \"\n      \"the break of the page. \"\n"));
}

TEST_CASE("the data can be taken out again, byte for byte") {
  if (!installed("pdfdetach")) return;
  const Folder folder;
  const std::string out = folder.path("out.json");
  run("pdfdetach -savefile case.json -o " + out + " " + folder.put("a.pdf", sample(pdf::Flavour::pdfa_3a)));
  std::ifstream file(out, std::ios::binary);
  CHECK(std::string(std::istreambuf_iterator<char>(file), {}) == case_data);
}

TEST_CASE("the photos are found with their size as placed") {
  if (!installed("pdfimages")) return;
  const Folder folder;
  const Said said = run("pdfimages -list " + folder.put("a.pdf", sample(pdf::Flavour::pdfa_3a)));
  CHECK(count(said.text, " jpeg ") == 2);
  CHECK(count(said.text, "220   220") == 2);
}

TEST_CASE("two more readers draw the pages without a word") {
  const Folder folder;
  const std::string path = folder.put("a.pdf", sample(pdf::Flavour::pdfa_3a));
  if (installed("mutool")) {
    const Said said = run("mutool draw -q -F txt -o /dev/null " + path);
    CHECK(said.status == 0);
    CHECK_FALSE(has(said.text, "error"));
  }
  if (installed("gs")) CHECK(run("gs -q -dNOPAUSE -dBATCH -dPDFSTOPONERROR -sDEVICE=nullpage " + path).status == 0);
}
