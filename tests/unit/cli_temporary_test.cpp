// Files put in their place while other programs work in the same folder. What they do in between is done by the
// question that write_whole asks, which comes just before it acts.
#include "cli/temporary.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "cli/disk.h"

namespace fs = std::filesystem;
using namespace soundsill::cli;

namespace {

class Folder {
 public:
  Folder() {
    std::string name = (fs::temp_directory_path() / "soundsill-test-XXXXXX").string();
    REQUIRE(::mkdtemp(name.data()) != nullptr);
    path = name;
  }
  ~Folder() { fs::remove_all(path); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  [[nodiscard]] std::string at(const std::string& name) const { return (path / name).string(); }
  [[nodiscard]] std::size_t count() const {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator(path), fs::directory_iterator()));
  }
  fs::path path;
};

void put(const std::string& path, const std::string& text) { std::ofstream(path, std::ios::binary) << text; }

std::string text_of(const std::string& path) {
  std::ostringstream out;
  out << std::ifstream(path, std::ios::binary).rdbuf();
  return out.str();
}

/// Only what begins with "ours" gives way.
std::string refusal(const std::string& at) {
  return !fs::exists(at) || text_of(at).starts_with("ours") ? "" : "is somebody's own";
}

}  // namespace

TEST_CASE("a paper takes a free place, and that of a paper that may give way") {
  const Folder folder;
  CHECK(write_whole(folder.at("a"), "ours 1", refusal).good());
  CHECK(write_whole(folder.at("a"), "ours 2", refusal).good());
  CHECK(text_of(folder.at("a")) == "ours 2");
  put(folder.at("b"), "a case");
  CHECK(write_whole(folder.at("b"), "ours", refusal).refusal == "is somebody's own");
  CHECK(text_of(folder.at("b")) == "a case");
  fs::create_directory(folder.path / "c");
  CHECK_FALSE(write_whole(folder.at("c"), "ours", [](const std::string&) { return std::string(); }).good());
  CHECK(fs::is_directory(folder.path / "c"));
  CHECK(folder.count() == 3);
}

TEST_CASE("a file that comes between the look and the rename stays") {
  for (const bool stood : {false, true})
    for (const int look : {1, 2}) {  // the first look is before anything is written, the second just before the rename
      if (!stood && look == 2) continue;  // where nothing stands there is only one
      INFO("an old paper: " << stood << ", after look " << look);
      const Folder folder;
      const std::string path = folder.at("a");
      if (stood) put(path, "ours, old");
      int looks = 0;
      const auto looked = [&](const std::string& at) {
        std::string why = refusal(at);
        if (++looks == look) {
          put(path + ".new", "a case");
          fs::rename(path + ".new", path);
        }
        return why;
      };
      const Placed placed = write_whole(path, "ours, new", looked);
      CHECK(placed.refusal == "is somebody's own");
      CHECK(text_of(path) == "a case");
      CHECK(folder.count() == 1);
    }
}

TEST_CASE("a paper that goes between the look and the rename is no trouble") {
  const Folder folder;
  const std::string path = folder.at("a");
  put(path, "ours, old");
  int looks = 0;
  const auto looked = [&](const std::string& at) {
    if (++looks == 2) fs::remove(path);
    return refusal(at);
  };
  CHECK(write_whole(path, "ours, new", looked).good());
  CHECK(text_of(path) == "ours, new");
  CHECK(folder.count() == 1);
}

TEST_CASE("what a third program puts there while a file is put back is not taken away") {
  const Folder folder;
  const std::string path = folder.at("a");
  put(path, "ours, old");
  int looks = 0;
  const auto looked = [&](const std::string& at) {
    std::string why = refusal(at);
    if (++looks == 2) put(path, "a case");
    if (looks == 3) {  // after the exchange
      put(path + ".new", "a letter");
      fs::rename(path + ".new", path);
    }
    return why;
  };
  const Placed placed = write_whole(path, "ours, new", looked);
  CHECK(text_of(path) == "a case");
  REQUIRE(folder.count() == 2);
  for (const auto& entry : fs::directory_iterator(folder.path)) {
    const std::string name = entry.path().string();
    if (name == path) continue;
    CHECK(text_of(name) == "a letter");
    CHECK(placed.trouble == "what stood there is `" + name + "` now");
  }
}

TEST_CASE("two writers have two names, and each takes only leftovers that nobody holds") {
  const Folder folder;
  const std::string path = folder.at("a");
  std::string dead;
  {
    Temporary one(path, Temporary::Kind::file), two(path, Temporary::Kind::file), three(path, Temporary::Kind::folder);
    REQUIRE(one.trouble() + two.trouble() + three.trouble() == "");
    CHECK(one.name() != two.name());
    CHECK(one.write("ours, 1").empty());
    CHECK(two.write("ours, 2").empty());
    dead = one.name();
    remove_leftovers(path);
    CHECK(folder.count() == 3);
    CHECK(two.put_in_place(refusal).good());
    CHECK(one.put_in_place(refusal).good());
    CHECK(text_of(path) == "ours, 1");
  }
  CHECK(folder.count() == 1);
  // The same names, made by runs that are no more: here, in another place, under another kernel, by an older version.
  put(dead, "half");
  const auto dash = dead.rfind('-');
  fs::create_directory(dead + "1");
  put(dead + "1/page-01.png", "half");
  const std::string other_kernel = dead.substr(0, dash - 12) + "0123456789ab" + dead.substr(dash);
  put(other_kernel, "half");
  put(folder.at(".a.tmp-999999"), "half");
  put(folder.at(".b.tmp" + dead.substr(dead.rfind("tmp-") + 3)), "half");
  remove_leftovers(path);
  CHECK_FALSE(fs::exists(dead));
  CHECK_FALSE(fs::exists(dead + "1"));
  CHECK(folder.count() == 4);
}
