#include <map>

#include "site_sampling.h"

using namespace soundsill;
using namespace soundsill::test;

namespace {

constexpr std::int64_t square_foot = 192 * 192;
const char* const rectangle = "E 40', S 28', W 40', N 28'";
const char* const ell = "E 40', S 16', E 12', S 12', W 52', N 28'";

std::string wall(const std::string& name, const std::string& from, const std::string& to,
                 const std::string& thick = "8\"") {
  return "{name: " + name + ", from: [" + from + "], to: [" + to + "], thick: " + thick +
         ", footing: 1', known by: dug}";
}

std::unique_ptr<Plan> with(const std::string& partitions, const std::string& outline = rectangle) {
  return crawl(outline, "8\"", "partitions: [" + partitions + "]\n");
}

Length round_cells(const SurveyedPart& part) {
  Length sum;
  for (const Cell& cell : part.cells) sum += cell.perimeter;
  return sum;
}
Length all_faces(const SurveyedStructure& s) {
  Length sum;
  for (const SurveyedPartition& p : s.partitions) sum += p.faces;
  return sum;
}
Length all_clear(const SurveyedStructure& s) {
  Length sum;
  for (const SurveyedPartition& p : s.partitions) sum += p.clear;
  return sum;
}
Length sum_of_walls(const SurveyedStructure& s) {
  Length sum;
  for (const Wall& w : s.walls) sum += w.inside_length;
  return sum;
}
double sixteenths(Length l) { return static_cast<double>(l.sixteenths); }
double square_sixteenths(const Ratio& sqft) { return sqft.approx() * static_cast<double>(square_foot); }

std::vector<std::vector<Point>> rooms_of(const SurveyedPart& part) {
  std::vector<std::vector<Point>> rooms = part.further_rooms;
  rooms.insert(rooms.begin(), part.inside_corners);
  return rooms;
}

struct Box {
  std::int64_t west, north, east, south;
};
// Of an odd thickness the spare sixteenth lies to the right, as one goes from `from` to `to`.
Box box_of(const Partition& p) {
  const std::int64_t t = p.thick->sixteenths, small = t / 2, big = t - small;
  const std::int64_t ax = p.from->x.sixteenths, ay = p.from->y.sixteenths;
  const std::int64_t bx = p.to->x.sixteenths, by = p.to->y.sixteenths;
  if (ay == by) return ax < bx ? Box{ax, ay - small, bx, ay + big} : Box{bx, ay - big, ax, ay + small};
  return ay < by ? Box{ax - big, ay, ax + small, by} : Box{ax - small, by, ax + big, ay};
}

// Rooms by another way: the plan is cut at every corner and every side, and pieces that lie beside each other without
// masonry between them are gathered.
struct Counted {
  std::multimap<std::int64_t, std::int64_t> rooms;  ///< area and length round, in sixteenths
  std::int64_t walls = 0, faces = 0;                ///< what of those lengths is wall, and what is partition
};
class Grid {
 public:
  Grid(const std::vector<std::vector<Point>>& rooms, const std::vector<Box>& bands) {
    for (const auto& room : rooms)
      for (const Point& p : room) xs_.push_back(p.x.sixteenths), ys_.push_back(p.y.sixteenths);
    for (const Box& b : bands) {
      xs_.insert(xs_.end(), {b.west, b.east});
      ys_.insert(ys_.end(), {b.north, b.south});
    }
    for (auto* v : {&xs_, &ys_}) {
      std::sort(v->begin(), v->end());
      v->erase(std::unique(v->begin(), v->end()), v->end());
    }
    what_.assign(columns() * rows(), What::outside);
    for (std::size_t i = 0; i < columns(); ++i)
      for (std::size_t j = 0; j < rows(); ++j) what_[index(i, j)] = find(i, j, rooms, bands);
  }

  Counted count() {
    Counted out;
    std::vector<bool> seen(what_.size());
    for (std::size_t i = 0; i < columns(); ++i)
      for (std::size_t j = 0; j < rows(); ++j)
        if (what_[index(i, j)] == What::soil && !seen[index(i, j)]) gather(i, j, seen, out);
    return out;
  }

 private:
  enum class What { outside, band, soil };
  [[nodiscard]] std::size_t columns() const { return xs_.size() - 1; }
  [[nodiscard]] std::size_t rows() const { return ys_.size() - 1; }
  [[nodiscard]] std::size_t index(std::size_t i, std::size_t j) const { return j * columns() + i; }

  [[nodiscard]] What find(std::size_t i, std::size_t j, const std::vector<std::vector<Point>>& rooms,
                          const std::vector<Box>& bands) const {
    const Spot middle{static_cast<double>(xs_[i] + xs_[i + 1]) / 2, static_cast<double>(ys_[j] + ys_[j + 1]) / 2};
    const bool room = std::any_of(rooms.begin(), rooms.end(), [&](const auto& r) { return holds(r, middle); });
    if (!room) return What::outside;
    const bool band = std::any_of(bands.begin(), bands.end(), [&](const Box& b) {
      return b.west <= xs_[i] && xs_[i + 1] <= b.east && b.north <= ys_[j] && ys_[j + 1] <= b.south;
    });
    return band ? What::band : What::soil;
  }

  void gather(std::size_t i, std::size_t j, std::vector<bool>& seen, Counted& out) const {
    std::int64_t area = 0, round = 0;
    std::vector<std::pair<std::size_t, std::size_t>> next{{i, j}};
    seen[index(i, j)] = true;
    while (!next.empty()) {
      const auto [c, r] = next.back();
      next.pop_back();
      const std::int64_t w = xs_[c + 1] - xs_[c], h = ys_[r + 1] - ys_[r];
      area += w * h;
      const auto step = [&](bool there, std::size_t to_c, std::size_t to_r, std::int64_t edge) {
        const What what = there ? what_[index(to_c, to_r)] : What::outside;
        if (what != What::soil) {
          round += edge;
          (what == What::band ? out.faces : out.walls) += edge;
        } else if (!seen[index(to_c, to_r)]) {
          seen[index(to_c, to_r)] = true;
          next.emplace_back(to_c, to_r);
        }
      };
      step(c > 0, c - 1, r, h);
      step(c + 1 < columns(), c + 1, r, h);
      step(r > 0, c, r - 1, w);
      step(r + 1 < rows(), c, r + 1, w);
    }
    out.rooms.emplace(area, round);
  }

  std::vector<std::int64_t> xs_, ys_;
  std::vector<What> what_;
};

using Random = std::mt19937;
int pick(Random& random, int a, int b) { return std::uniform_int_distribution<int>(a, b)(random); }

// From anywhere to anywhere along an axis; often on whole feet, so that ends and sides meet others just so.
Partition random_partition(Random& random, const std::vector<Point>& corners, bool even) {
  Length east, south;
  for (const Point& p : corners) east = std::max(east, p.x), south = std::max(south, p.y);
  const bool whole = pick(random, 0, 1) == 1;
  const auto along = [&](Length most) {
    const int n = pick(random, 0, static_cast<int>(most.sixteenths));
    return Length{whole ? n / 64 * 64 : n};
  };
  const Length thick{even || whole ? 2 * pick(random, 1, 3) * 32 : pick(random, 30, 250)};
  const Point from{along(east), along(south)};
  Point to = from;
  if (pick(random, 0, 1) == 0)
    to.x = along(east);
  else
    to.y = along(south);
  if (to == from) to.x += ft(5);
  return partition_of(from, to, even ? Length{thick.sixteenths / 2 * 2} : thick);
}

Structure random_structure(Random& random, bool even = false) {
  const auto corners = stepped(random, pick(random, 0, 1) == 1);
  Structure s = structure_of(corners, ft(0, 8));
  std::vector<Partition> partitions;
  for (int i = pick(random, 1, 3); i > 0; --i) partitions.push_back(random_partition(random, corners, even));
  s.partitions.set(partitions);
  return s;
}

// One that lies in no room is reported, and is left out here too.
std::vector<Box> boxes_of(const SurveyedStructure& s) {
  std::vector<Box> out;
  for (const SurveyedPartition& p : s.partitions) out.push_back(box_of(*p.facts));
  return out;
}

}  // namespace

TEST_CASE("a partition has soil along both its faces, and hides what it meets") {
  // From face to face, and from outside line to outside line, are two ways to type one wall.
  const auto [from, to] =
      GENERATE(table<const char*, const char*>({{"8\", 14'", "39'4\", 14'"}, {"0, 14'", "40', 14'"}}));
  const auto plan = with(wall("cross", from, to));
  CHECK(plan->whats() == "");
  const SurveyedStructure& s = plan->house();
  REQUIRE(s.partitions.size() == 1);
  CHECK(s.partitions[0].clear == ft(38, 8));
  CHECK(s.partitions[0].faces == ft(77, 4));
  CHECK(s.wall(1)->inside_length == ft(38, 8));
  CHECK(s.wall(2)->inside_length == ft(26));  // 26'8", less 8"
  CHECK(s.wall(4)->inside_length == ft(26));
  CHECK(s.parts[0].inside == ft(136) - ft(0, 64 + 16));
  CHECK(s.inside == s.parts[0].inside);
  REQUIRE(s.parts[0].cells.size() == 2);
  for (const Cell& cell : s.parts[0].cells) {
    CHECK(cell.perimeter == (ft(38, 8) + ft(13)) * 2);
    CHECK(cell.area_sqft == Ratio(116 * 13, 3));
  }
  CHECK(s.parts[0].inside_sqft == Ratio(116 * 26, 3));
}

TEST_CASE("a part without partitions is one cell, and two rooms are two") {
  const auto one = crawl(rectangle);
  REQUIRE(one->house().parts[0].cells.size() == 1);
  CHECK(one->house().parts[0].cells[0].perimeter == one->house().inside);
  CHECK(one->house().parts[0].inside_sqft == Ratio(116 * 80, 9));
  const auto neck = crawl("E 10', S 5', E 6', N 5', E 10', S 11', W 10', N 5', W 6', S 5', W 10', N 11'");
  CHECK(neck->house().parts[0].cells.size() == 2);
}

TEST_CASE("a partition that ends free has soil round its end, and one in the open round both") {
  const auto stub = with(wall("stub", "0, 14'", "20', 14'"));
  CHECK(stub->whats() == "");
  CHECK(stub->house().partitions[0].clear == ft(19, 4));
  CHECK(stub->house().partitions[0].faces == ft(38, 8 + 8));
  CHECK(stub->house().inside == ft(136) - ft(0, 64 + 8));
  REQUIRE(stub->house().parts[0].cells.size() == 1);
  CHECK(stub->house().parts[0].cells[0].perimeter == stub->house().inside + ft(39, 4));

  const auto open = with(wall("open", "10', 14'", "20', 14'", "1'"));
  CHECK(open->house().partitions[0].clear == ft(10));
  CHECK(open->house().partitions[0].faces == ft(22));
  CHECK(open->house().inside == ft(136) - ft(0, 64));
  REQUIRE(open->house().parts[0].cells.size() == 1);
  CHECK(open->house().parts[0].cells[0].perimeter == open->house().inside + ft(22));
  CHECK(open->house().parts[0].inside_sqft == Ratio(116 * 80, 9) - Ratio(10));
}

TEST_CASE("where one partition meets another in a T, the face it meets is shorter") {
  // The stem may be typed to the near face of the other, to its middle, or through to its far face.
  const auto end = GENERATE(as<std::string>(), "13'8\"", "14'", "14'4\"");
  CAPTURE(end);
  const bool stem_first = GENERATE(true, false);
  const std::string across = wall("across", "0, 14'", "40', 14'"), stem = wall("stem", "20', 0", "20', " + end);
  const auto plan = with(stem_first ? stem + ", " + across : across + ", " + stem);
  CHECK(plan->whats() == "");
  const SurveyedStructure& s = plan->house();
  REQUIRE(s.partitions.size() == 2);
  CHECK(s.partitions[stem_first ? 0 : 1].clear == ft(13));
  CHECK(all_faces(s) == ft(26 + 77, 4) - ft(0, 8));
  if (end != "14'4\"") {  // else the end of the stem is a piece of the far face, and either may have it
    CHECK(s.partitions[stem_first ? 0 : 1].faces == ft(26));
    CHECK(s.partitions[stem_first ? 1 : 0].clear == ft(38, 8));
  }
  REQUIRE(s.parts[0].cells.size() == 3);
  CHECK(round_cells(s.parts[0]) == s.inside + all_faces(s));
  CHECK(s.parts[0].inside_sqft == Ratio(116 * 26, 3) - Ratio(13 * 2, 3));
}

TEST_CASE("two partitions that cross leave four rooms, and no soil in the crossing") {
  const auto plan = with(wall("across", "0, 14'", "40', 14'") + ", " + wall("down", "20', 0", "20', 28'"));
  CHECK(plan->whats() == "");
  const SurveyedStructure& s = plan->house();
  CHECK(s.partitions[0].clear == ft(38));
  CHECK(s.partitions[0].faces == ft(76));
  CHECK(s.partitions[1].clear == ft(26));
  CHECK(s.partitions[1].faces == ft(52));
  REQUIRE(s.parts[0].cells.size() == 4);
  for (const Cell& cell : s.parts[0].cells) {
    CHECK(cell.perimeter == (ft(19) + ft(13)) * 2);
    CHECK(cell.area_sqft == Ratio(19 * 13));
  }
}

TEST_CASE("partitions that overlap or stand side by side have no soil between them, and keep their outer faces") {
  // One wall typed as two that lap.
  const auto lapped = with(wall("west", "0, 14'", "22', 14'") + ", " + wall("east", "18', 14'", "40', 14'"));
  CHECK(all_faces(lapped->house()) == ft(77, 4));
  CHECK(all_clear(lapped->house()) == ft(38, 8));
  CHECK(round_cells(lapped->house().parts[0]) == lapped->house().inside + ft(77, 4));
  // One wall typed as two, end to end.
  const auto ends = with(wall("west", "0, 14'", "20', 14'") + ", " + wall("east", "20', 14'", "40', 14'"));
  CHECK(all_faces(ends->house()) == ft(77, 4));
  CHECK(all_clear(ends->house()) == ft(38, 8));
  CHECK(ends->house().parts[0].cells.size() == 2);
  // Two leaves of one wall.
  const auto leaves =
      with(wall("north", "0, 13'8\"", "40', 13'8\"") + ", " + wall("south", "0, 14'4\"", "40', 14'4\""));
  CHECK(leaves->house().partitions[0].faces == ft(38, 8));
  CHECK(leaves->house().partitions[1].faces == ft(38, 8));
  CHECK(leaves->house().wall(2)->inside_length == ft(25, 4));
}

TEST_CASE("a diagonal partition is measured along itself") {
  // 3, 4, 5: from wall to wall 20 ft down and 15 ft across. Both faces are as long as the middle, 25 ft.
  const auto plan = with(wall("slope", "10', -4'", "31', 24'"), "E 40', S 20', W 40', N 20'");
  CHECK(plan->whats() == "");
  const SurveyedStructure& s = plan->house();
  REQUIRE(s.partitions.size() == 1);
  const double clear = (20 * 192 - 256) * 1.25;
  CHECK(std::abs(sixteenths(s.partitions[0].clear) - clear) <= 1);
  CHECK(std::abs(sixteenths(s.partitions[0].faces) - 2 * clear) <= 2);
  // On the level walls it hides its thickness times 5/4.
  CHECK(std::abs(sixteenths(ft(38, 8) - s.wall(1)->inside_length) - 160) <= 1);
  CHECK(std::abs(sixteenths(ft(38, 8) - s.wall(3)->inside_length) - 160) <= 1);
  CHECK(s.wall(2)->inside_length == ft(18, 8));
  REQUIRE(s.parts[0].cells.size() == 2);
  CHECK(std::abs(sixteenths(round_cells(s.parts[0]) - s.inside - all_faces(s))) <= 4);
}

TEST_CASE("a partition may go on from an inner corner of the house in line with its wall") {
  // Its south face is in line with the inside face of wall 3, which keeps what lies beside the masonry.
  const auto to = GENERATE(as<std::string>(), "39'4\"", "40'", "52'");
  CAPTURE(to);
  const auto plan = with(wall("line", "0, 16'4\"", to + ", 16'4\""), ell);
  CHECK(plan->whats() == "");
  const SurveyedStructure& s = plan->house();
  REQUIRE(s.partitions.size() == 1);
  CHECK(s.partitions[0].clear == ft(38, 8));
  CHECK(s.partitions[0].faces == ft(38, 8) * 2);
  CHECK(s.wall(3)->inside_length == ft(12));
  CHECK(s.wall(2)->inside_length == ft(15, 4));
  REQUIRE(s.parts[0].cells.size() == 2);
  CHECK(s.parts[0].cells[0].perimeter + s.parts[0].cells[1].perimeter ==
        (ft(38, 8) + ft(15, 4)) * 2 + (ft(50, 8) + ft(10, 8)) * 2);
  // Free at its other end, it is a short one before a long wall.
  const auto stub = with(wall("line", "30', 16'4\"", to + ", 16'4\""), ell);
  CHECK(stub->house().partitions[0].faces == ft(9, 4) * 2 + ft(0, 8));
  CHECK(round_cells(stub->house().parts[0]) == stub->house().inside + all_faces(stub->house()));
}

TEST_CASE("a part walked the other way round has the same rooms") {
  const std::string more = wall("a", "0, 16'4\"", "40', 16'4\"") + ", " + wall("b", "12', 0", "12', 28'", "5 1/2\"");
  const auto one = with(more, ell), two = with(more, "S 28', E 52', N 12', W 12', N 16', W 40'");
  REQUIRE_FALSE(two->house().parts[0].clockwise);
  CHECK(two->whats() == "");
  CHECK(one->house().inside == two->house().inside);
  for (std::size_t i = 0; i < 2; ++i) {
    CHECK(one->house().partitions.at(i).faces == two->house().partitions.at(i).faces);
    CHECK(one->house().partitions[i].clear == two->house().partitions[i].clear);
    CHECK(one->house().partitions[i].band == two->house().partitions[i].band);
  }
  CHECK(one->house().parts[0].inside_sqft == two->house().parts[0].inside_sqft);
  CHECK(two->house().parts[0].cells.size() == 4);
  CHECK(round_cells(one->house().parts[0]) == round_cells(two->house().parts[0]));
}

TEST_CASE("an odd thickness is neither lost nor grown") {
  const auto plan = with(wall("thin", "0, 14'", "40', 14'", "5 1/16\""));
  CHECK(plan->house().wall(2)->inside_length == ft(26, 8) - ft(0, 5, 1));
  CHECK(plan->house().partitions[0].band == std::vector<Point>{{{}, ft(14) - Length{40}},
                                                               {ft(40), ft(14) - Length{40}},
                                                               {ft(40), ft(14) + Length{41}},
                                                               {{}, ft(14) + Length{41}}});
  const auto back = with(wall("thin", "40', 14'", "0, 14'", "5 1/16\""));
  CHECK(back->house().partitions[0].band[0] == Point{ft(40), ft(14) + Length{40}});
  CHECK(back->house().inside == plan->house().inside);
}

TEST_CASE("a partition belongs to the part it lies in") {
  const std::string parts =
      "parts:\n"
      "  - {name: main, foundation: crawl space, outline: [E 40', S 28', W 40', N 28']}\n"
      "  - {name: addition, foundation: crawl space, start: [40', 8'], outline: [E 12', S 16', W 12', N 16']}\n"
      "walls: [{walls: all, thick: 8\"}]\n";
  const auto plan = plan_of(parts + "partitions: [" + wall("new", "40', 16'", "52', 16'") + "]\n");
  CHECK(plan->whats() == "");
  REQUIRE(plan->house().partitions.size() == 1);
  CHECK(plan->house().partitions[0].part == 1);
  CHECK(plan->house().partitions[0].clear == ft(11, 4));
  CHECK(plan->house().parts[0].cells.size() == 1);
  CHECK(plan->house().parts[1].cells.size() == 2);
  CHECK(plan->house().wall(2)->inside_length == ft(26, 8));
  CHECK(plan->house().wall(8)->inside_length == ft(14));
}

TEST_CASE("a partition that reaches into the next part changes nothing there") {
  const auto plan = plan_of(
      "parts:\n"
      "  - {name: main, foundation: crawl space, outline: [E 40', S 28', W 40', N 28']}\n"
      "  - {name: addition, foundation: crawl space, start: [40', 8'], outline: [E 12', S 16', W 12', N 16']}\n"
      "walls: [{walls: all, thick: 8\"}]\n"
      "partitions: [" +
      wall("cross", "0, 16'", "52', 16'") + "]\n");
  CHECK(plan->whats() == "");
  const SurveyedStructure& s = plan->house();
  CHECK(s.partitions.at(0).part == 0);
  CHECK(s.partitions[0].faces == ft(77, 4));
  CHECK(s.wall(2)->inside_length == ft(26));
  CHECK(s.wall(8)->inside_length == ft(14, 8));
  CHECK(s.wall(6)->inside_length == ft(14, 8));
  CHECK(s.parts[0].cells.size() == 2);
  REQUIRE(s.parts[1].cells.size() == 1);
  CHECK(s.parts[1].cells[0].perimeter == s.parts[1].inside);
}

TEST_CASE("a gap of less than a square inch is no room") {
  // Between the first two lies a sixteenth, which the third closes a foot from the wall; farther on it lies open.
  const std::string two = wall("a", "0, 14'", "10', 14'") + ", " + wall("b", "0, 14'8 1/16\"", "10', 14'8 1/16\"");
  CHECK(with(two + ", " + wall("c", "2', 13'", "2', 16'"))->house().parts[0].cells.size() == 1);
  CHECK(with(two + ", " + wall("c", "4', 13'", "4', 16'"))->house().parts[0].cells.size() == 2);
}

TEST_CASE("partitions that are none are faults, one each") {
  const auto fault = [](const std::string& partition, const std::string& says, const std::string& at) {
    const auto plan = with(partition);
    CHECK(plan->whats() == says + " [partition-misplaced]\n");
    REQUIRE(plan->faults.size() == 1);
    CHECK(plan->faults[0].rule == Rule::partition_misplaced);
    CHECK(plan->at(0) == at);
    CHECK(plan->house().partitions.empty());
    CHECK(plan->house().inside == ft(136) - ft(0, 64));
  };
  fault(wall("spot", "9', 9'", "9', 9'"), "the partition `spot` begins and ends in one point", "[9', 9']");
  fault(wall("thin", "0, 9'", "9', 9'", "0"), "the partition `thin` is 0\" thick", "0");
  fault(wall("fat", "0, 9'", "9', 9'", "4'"), "the partition `fat` is 4' thick", "4'");
  fault(wall("fat", "0, 9'", "9', 9'", "3'0 1/16\""), "the partition `fat` is 3'0 1/16\" thick", "3'0 1/16\"");
  fault(wall("away", "50', 9'", "60', 9'"), "the partition `away` lies in no part of the structure", "[50', 9']");
  fault(wall("wall", "0, 4\"", "40', 4\""), "the partition `wall` lies in no part of the structure", "[0, 4\"]");
  CHECK(with(wall("thick", "0, 9'", "9', 9'", "3'"))->faults.empty());
}

TEST_CASE("where the outline or the thickness is not known, nothing more is said of partitions") {
  CHECK(with(wall("cross", "0, 14'", "40', 14'"), "E 40', S 28', W 30', N 28'")->faults.size() == 1);
  const auto bare = plan_of(
      "parts: [{name: main, foundation: crawl space, outline: [E 40', S 28', W 40', N 28']}]\n"
      "partitions: [" +
      wall("cross", "0, 14'", "40', 14'") + "]\n");
  CHECK(bare->whats() == "walls 1, 2, 3 and 4 of `main` have no thickness [bad-wall]\n");
}

TEST_CASE("rooms, walls and partitions of any rectilinear plan agree with a count of cells") {
  Random random(41);
  std::size_t most = 0, free_standing = 0;
  for (int i = 0; i < 600; ++i) {
    const auto plan = plan_of(random_structure(random));
    const SurveyedStructure& s = plan->house();
    const Counted counted = Grid(rooms_of(s.parts[0]), boxes_of(s)).count();
    CAPTURE(i);
    CHECK(all_faces(s) == Length{counted.faces});
    CHECK(s.parts[0].inside == Length{counted.walls});
    CHECK(sum_of_walls(s) == s.parts[0].inside);
    CHECK(s.drawn_inside == s.parts[0].inside);
    for (const Wall& w : s.walls) {
      Length inner;
      for (const Stretch& face : w.inner) inner += face.length();
      CHECK(inner == w.inside_length);
    }
    std::multimap<std::int64_t, std::int64_t> rooms;
    Ratio sum;
    for (const Cell& cell : s.parts[0].cells) {
      rooms.emplace(std::llround(square_sixteenths(cell.area_sqft)), cell.perimeter.sixteenths);
      sum = sum + cell.area_sqft;
    }
    auto expected = counted.rooms;
    std::erase_if(expected, [](const auto& room) { return room.first < 256; });  // of a square inch nobody speaks
    CHECK(rooms == expected);
    CHECK(s.parts[0].inside_sqft == sum);
    most = std::max(most, rooms.size());
    free_standing +=
        s.parts[0].inside == sum_of_walls(plan_of(structure_of(s.parts[0].corners, ft(0, 8)))->house()) ? 1 : 0;
  }
  CHECK(most >= 4);  // the plans are no easy ones
  CHECK(free_standing >= 20);
}

TEST_CASE("rooms of any plan agree with its faces and with a count of points") {
  Random random(43);
  for (int i = 0; i < 100; ++i) {
    Structure facts = structure_of(slanted(random), Length{pick(random, 64, 200)});
    std::vector<Partition> partitions;
    for (int k = pick(random, 1, 3); k > 0; --k) {
      const auto any = [&] { return Point{Length{pick(random, -3000, 3000)}, Length{pick(random, -3000, 3000)}}; };
      const Point from = any();
      Point to = any();
      while (std::abs((to.x - from.x).sixteenths) + std::abs((to.y - from.y).sixteenths) < 600) to = any();
      partitions.push_back(partition_of(from, to, Length{pick(random, 40, 250)}));
    }
    facts.partitions.set(partitions);
    const auto plan = plan_of(facts);
    const SurveyedStructure& s = plan->house();
    CAPTURE(i);
    // Every corner of a room may cost a sixteenth: those of the walls, and each edge of a band where it is cut.
    const auto corners = static_cast<double>(s.walls.size() + s.partitions.size() * (4 + s.partitions.size() * 4 + 4));
    CHECK(std::abs(sixteenths(round_cells(s.parts[0]) - s.parts[0].inside - all_faces(s))) <= corners);
    CHECK(sum_of_walls(s) == s.parts[0].inside);
    constexpr int step = 36;
    std::vector<std::vector<Point>> bands;
    for (const SurveyedPartition& p : s.partitions) bands.push_back(p.band);
    const auto rooms = rooms_of(s.parts[0]);
    double count = 0;
    for (int x = -30 * 192; x <= 30 * 192; x += step)
      for (int y = -30 * 192; y <= 30 * 192; y += step) {
        const auto within = [&](const std::vector<Point>& shape) { return holds(shape, Spot{x + 0.5, y + 0.5}); };
        if (std::any_of(rooms.begin(), rooms.end(), within) && std::none_of(bands.begin(), bands.end(), within))
          ++count;
      }
    const double sampled = count * step * step, measured = square_sixteenths(s.parts[0].inside_sqft);
    CHECK(std::abs(sampled - measured) <= 0.003 * measured + 100 * step * step);
  }
}

TEST_CASE("shift, quarter turn and mirror change no room") {
  Random random(47);
  for (int i = 0; i < 80; ++i) {
    const Structure facts = random_structure(random, true);
    const auto first = plan_of(facts);
    const auto corners = first->house().parts[0].corners;
    for (int how = 1; how <= 3; ++how) {
      Structure other = structure_of(moved(corners, how), ft(0, 8));
      std::vector<Partition> partitions = *facts.partitions;
      for (Partition& p : partitions) p = partition_of(moved(*p.from, how), moved(*p.to, how), *p.thick);
      other.partitions.set(partitions);
      const auto second = plan_of(other);
      CAPTURE(i, how);
      CHECK(first->faults.size() == second->faults.size());
      const SurveyedStructure &a = first->house(), &b = second->house();
      REQUIRE(a.partitions.size() == b.partitions.size());
      for (std::size_t k = 0; k < a.partitions.size(); ++k) {
        CHECK(a.partitions[k].clear == b.partitions[k].clear);
        CHECK(a.partitions[k].faces == b.partitions[k].faces);
      }
      for (std::size_t w = 0; w < a.walls.size(); ++w) CHECK(a.walls[w].inside_length == b.walls[w].inside_length);
      CHECK(a.parts[0].inside_sqft == b.parts[0].inside_sqft);
      std::multimap<std::int64_t, std::int64_t> rooms, turned;
      for (const Cell& c : a.parts[0].cells)
        rooms.emplace(c.perimeter.sixteenths, std::llround(square_sixteenths(c.area_sqft)));
      for (const Cell& c : b.parts[0].cells)
        turned.emplace(c.perimeter.sixteenths, std::llround(square_sixteenths(c.area_sqft)));
      CHECK(rooms == turned);
    }
  }
}

TEST_CASE("typing a partition from its other end changes nothing, and splitting it no face and no clear length") {
  Random random(53);
  int halved = 0;
  for (int i = 0; i < 80; ++i) {
    const Structure facts = random_structure(random, true);
    Structure back = facts, split = facts;
    std::vector<Partition> turned = *facts.partitions, halves = *facts.partitions;
    const Partition first = halves.front();
    const Point middle{Length{(first.from->x + first.to->x).sixteenths / 2},
                       Length{(first.from->y + first.to->y).sixteenths / 2}};
    halves.front() = partition_of(*first.from, middle, *first.thick, "first half");
    halves.push_back(partition_of(middle, *first.to, *first.thick, "second half"));
    for (Partition& p : turned) p = partition_of(*p.to, *p.from, *p.thick);
    back.partitions.set(turned);
    split.partitions.set(halves);
    const auto one = plan_of(facts), two = plan_of(back), three = plan_of(split);
    CAPTURE(i);
    CHECK(all_faces(one->house()) == all_faces(two->house()));
    CHECK(all_clear(one->house()) == all_clear(two->house()));
    CHECK(one->house().inside == two->house().inside);
    if (three->faults.size() > one->faults.size()) continue;  // one of the halves lies in no room
    ++halved;
    CHECK(all_faces(one->house()) == all_faces(three->house()));
    CHECK(all_clear(one->house()) == all_clear(three->house()));
    CHECK(one->house().inside == three->house().inside);
    CHECK(one->house().parts[0].inside_sqft == three->house().parts[0].inside_sqft);
  }
  CHECK(halved >= 40);
}

TEST_CASE("of a partition that is near, the stretch that is near is said, from where its middle begins") {
  const auto plan = with(wall("cross", "0, 14'", "40', 14'") + ", " + wall("down", "20', 28'", "20', 14'"));
  const SurveyedStructure& s = plan->house();
  const Near touched = within(s, spot(at(10, 14)), ft(3));
  REQUIRE(touched.partitions.size() == 1);
  CHECK(touched.partitions[0].partition == 0);
  CHECK(touched.partitions[0].a == ft(7));
  CHECK(touched.partitions[0].b == ft(13));
  // 3 ft from the face, 5 ft around: 4 ft each way. The second begins in the south.
  const Near down = within(s, spot({ft(23, 4), ft(22)}), ft(5));
  REQUIRE(down.partitions.size() == 1);
  CHECK(down.partitions[0].partition == 1);
  CHECK(down.partitions[0].a == ft(2));
  CHECK(down.partitions[0].b == ft(10));
  CHECK(within(s, spot(at(10, 10)), ft(3, 8)).partitions.empty());  // touched in one point
  CHECK(within(s, spot(at(10, 10)), ft(3, 8, 1)).partitions.size() == 1);
  const Near own = within(s, place("partition down"), Length{});
  REQUIRE(own.partitions.size() == 2);
  CHECK(own.partitions[0].a == ft(19, 8));
  CHECK(own.partitions[0].b == ft(20, 4));
  CHECK(own.partitions[1].b - own.partitions[1].a == ft(14));
  CHECK(within(s, place("partition down"), ft(1)).stretches == std::vector<Stretch>{{3, ft(18, 8), ft(21, 4)}});
}

TEST_CASE("stretches of partitions that are near agree with dense sampling, and grow with the distance") {
  Random random(59);
  std::size_t found = 0;
  for (int i = 0; i < 200; ++i) {
    Structure facts = i % 2 == 0 ? random_structure(random) : structure_of(slanted(random), ft(0, 8));
    if (i % 2 == 1)
      facts.partitions.set({partition_of({Length{pick(random, -1500, -300)}, Length{pick(random, -1500, 1500)}},
                                         {Length{pick(random, 300, 1500)}, Length{pick(random, -1500, 1500)}},
                                         Length{pick(random, 40, 250)})});
    if (i % 4 >= 2) {  // walked the other way round
      auto corners = plan_of(facts)->house().parts[0].corners;
      std::reverse(corners.begin(), corners.end());
      facts.parts.set({part_of(corners)});
    }
    const auto plan = plan_of(facts);
    const SurveyedStructure& s = plan->house();
    const Place center = spot({Length{pick(random, -1500, 9000)}, Length{pick(random, -1500, 4000)}});
    const Spot p = spot_of(center.point);
    Near last;
    for (int d = 50; d < 4000; d = d * 2 + pick(random, 1, 100)) {
      const Near near = within(s, center, Length{d});
      found += near.partitions.size();
      for (const PartitionStretch& before : last.partitions)
        CHECK(std::any_of(near.partitions.begin(), near.partitions.end(), [&](const PartitionStretch& n) {
          return n.partition == before.partition && n.a <= before.a && before.b <= n.b;
        }));
      last = near;
      int wrong = 0;
      for (std::size_t k = 0; k < s.partitions.size(); ++k) {
        const std::vector<Point>& band = s.partitions[k].band;
        const Spot a = spot_of(band[0]), b = spot_of(band[1]), c = spot_of(band[3]);
        const double size = std::hypot(b.x - a.x, b.y - a.y);
        for (double at = 0; at <= size; at += 7) {
          const double x = (b.x - a.x) * at / size, y = (b.y - a.y) * at / size;
          const double least = to_segment(p, {a.x + x, a.y + y}, {c.x + x, c.y + y});
          const bool in = std::any_of(near.partitions.begin(), near.partitions.end(), [&](const PartitionStretch& n) {
            return n.partition == k && sixteenths(n.a) <= at && at <= sixteenths(n.b);
          });
          // Ends are rounded outward, and a diagonal's corners to a sixteenth on each axis.
          if (in ? least > d + 2 : least < d - 2) ++wrong;
        }
      }
      CAPTURE(i, d);
      CHECK(wrong == 0);
    }
  }
  CHECK(found >= 150);
}
