// Serves site/draft.h. Walls within a part, and the rooms that they and the outside walls leave.
#include <algorithm>
#include <cmath>

#include "site/clip.h"
#include "site/draft.h"
#include "site/words.h"

namespace soundsill::plan {
namespace {

constexpr Length thickest = Length::feet(3);

long double length_of(const std::vector<Piece>& pieces, Vec a, Vec b) {
  long double share = 0;
  for (const Piece& p : pieces) share += p.second - p.first;
  return share * std::hypot(static_cast<long double>(b.x - a.x), static_cast<long double>(b.y - a.y));
}

Length rounded(long double sixteenths) { return {static_cast<std::int64_t>(std::llround(sixteenths))}; }

Ring band_of(const Partition& p) {
  const Vec a = vec(*p.from), b = vec(*p.to), way = b - a;
  const auto size = std::hypot(static_cast<long double>(way.x), static_cast<long double>(way.y));
  const auto thick = static_cast<long double>(p.thick->sixteenths);
  // The sides lie a whole thickness apart; of an odd one the spare sixteenth lies on the second side.
  const auto share = [&](std::int64_t k, long double of) {
    return static_cast<std::int64_t>(std::llround(static_cast<long double>(k) * of / size));
  };
  const Vec whole{share(-way.y, thick), share(way.x, thick)};
  const Vec half{share(-way.y, std::floor(thick / 2)), share(way.x, std::floor(thick / 2))};
  return {a - half, b - half, b - half + whole, a - half + whole};
}

class Partitions {
 public:
  Partitions(Draft& draft, Faults& faults) : draft_(draft), faults_(faults) {}

  void find() {
    for (const Partition& facts : items(draft_.facts->partitions)) place(facts);
    for (std::size_t i = 0; i < bands_.size(); ++i) measure(i);
    shorten_walls();
    for (std::size_t p = 0; p < draft_.parts.size(); ++p) rooms(p);
  }

 private:
  void misplaced(const Span& at, std::string what, std::string fix) {
    faults_.add(Rule::partition_misplaced, at, std::move(what),
                "soil on both its sides would be measured where there is none, and billed", std::move(fix));
  }

  void place(const Partition& facts) {
    if (!facts.from || !facts.to || !facts.thick || !facts.footing) return;  // reported while reading
    const std::string name = "the partition" + (facts.name ? " " + quoted(*facts.name) : std::string());
    if (*facts.from == *facts.to)
      return misplaced(facts.to.at, name + " begins and ends in one point", "write where its middle begins and ends");
    if (*facts.thick <= Length{} || *facts.thick > thickest)
      return misplaced(facts.thick.at, name + " is " + soundsill::print(*facts.thick) + " thick",
                       "write the thickness as measured, like 8\"");
    const Vec a = vec(*facts.from), b = vec(*facts.to);
    for (std::size_t p = 0; p < draft_.parts.size(); ++p)
      for (const Ring& room : draft_.parts[p].rooms)
        if (!clipped(a, b, room).empty()) {
          draft_.made.partitions.push_back(typed(facts));
          draft_.made.partitions.back().part = p;
          draft_.made.partitions.back().band = points(band_of(facts));
          bands_.push_back(band_of(facts));
          return;
        }
    const auto sound = [](const PartDraft& d) { return d.walk.sound && !d.rooms.empty(); };
    if (draft_.made.complete && std::all_of(draft_.parts.begin(), draft_.parts.end(), sound))
      misplaced(facts.from.at, name + " lies in no part of the structure",
                "compare `from` and `to` with the outline; x runs east, y runs south of [0, 0]");
  }

  [[nodiscard]] const std::vector<Ring>& rooms_of(std::size_t i) const {
    return draft_.parts[draft_.made.partitions[i].part].rooms;
  }

  /// Pieces within a room; what lies against its wall is not.
  [[nodiscard]] std::vector<Piece> in_rooms(std::size_t i, Vec a, Vec b) const {
    std::vector<Piece> in;
    for (const Ring& room : rooms_of(i))
      for (const Piece& p : remaining(clipped(a, b, room), along_edges(a, b, room))) in.push_back(p);
    return joined(std::move(in));
  }

  /// What of an edge of a band has soil along it. The band lies right of its edges. Where two bands end in one line,
  /// the face is that of the first.
  [[nodiscard]] std::vector<Piece> free(std::size_t i, Vec a, Vec b) const {
    std::vector<Piece> taken;
    for (std::size_t j = 0; j < bands_.size(); ++j)
      if (j != i)
        for (const Piece& p : j < i ? clipped(a, b, bands_[j]) : left_covered(a, b, bands_[j])) taken.push_back(p);
    return remaining(in_rooms(i, a, b), taken);
  }

  /// What of its middle stands clear. One that ends at this very line does not interrupt it, and where two partitions
  /// are one in the same line, it is that of the first.
  [[nodiscard]] std::vector<Piece> clear(std::size_t i, Vec a, Vec b) const {
    std::vector<Piece> taken;
    for (std::size_t j = 0; j < bands_.size(); ++j) {
      const Vec c = vec(draft_.made.partitions[j].from), d = vec(draft_.made.partitions[j].to);
      const bool same_line = cross(b - a, c - a) == 0 && cross(b - a, d - a) == 0;
      if (j == i || (j > i && same_line)) continue;
      for (const Piece& p : remaining(clipped(a, b, bands_[j]), along_edges(a, b, bands_[j]))) taken.push_back(p);
    }
    return remaining(in_rooms(i, a, b), taken);
  }

  void measure(std::size_t i) {
    SurveyedPartition& made = draft_.made.partitions[i];
    const Ring& band = bands_[i];
    long double faces = 0;
    for (std::size_t k = 0; k < band.size(); ++k) {
      const Vec a = band[k], b = band[after(k, band.size())];
      faces += length_of(free(i, a, b), a, b);
    }
    made.faces = rounded(faces);
    const Vec a = vec(made.from), b = vec(made.to);
    made.clear = rounded(length_of(clear(i, a, b), a, b));
  }

  /// Where a partition meets a wall there is no soil along that wall's face. One that only lies behind the face, in the
  /// masonry, hides nothing.
  void shorten_walls() {
    for (std::size_t w = 0; w < draft_.made.walls.size(); ++w) {
      Wall& wall = draft_.made.walls[w];
      long double hidden = 0;
      for (const Face& face : draft_.walls[w].faces) {
        Vec a{std::llround(face.from.x), std::llround(face.from.y)},
            b{std::llround(face.to.x), std::llround(face.to.y)};
        if (draft_.made.parts[wall.part].clockwise) std::swap(a, b);  // the room lies left
        std::vector<Piece> pieces;
        for (std::size_t i = 0; i < bands_.size(); ++i)
          if (draft_.made.partitions[i].part == wall.part)
            for (const Piece& p : left_covered(a, b, bands_[i])) pieces.push_back(p);
        const auto met = joined(std::move(pieces));
        hidden += length_of(met, a, b);
        for (const Piece& open : remaining({{0, 1}}, met)) note_inner(wall, a, b, open);
      }
      const Length less = std::min(rounded(hidden), wall.inside_length);
      wall.inside_length -= less;
      draft_.made.parts[wall.part].inside -= less;
    }
  }

  static void note_inner(Wall& wall, Vec a, Vec b, const Piece& piece) {
    const Vec from = vec(wall.from), way = vec(wall.to) - from;
    const auto size = std::sqrt(static_cast<long double>(dot(way, way)));
    if (size <= 0) return;
    const long double scale =
        static_cast<long double>(wall.length.sixteenths) / size;  // a diagonal is as long as typed
    const auto at = [&](long double share) {
      const long double x = static_cast<long double>(a.x - from.x) + share * static_cast<long double>(b.x - a.x);
      const long double y = static_cast<long double>(a.y - from.y) + share * static_cast<long double>(b.y - a.y);
      return rounded((x * static_cast<long double>(way.x) + y * static_cast<long double>(way.y)) / size * scale);
    };
    const Length first = at(piece.first), last = at(piece.second);
    if (first != last) wall.inner.push_back({wall.number, std::min(first, last), std::max(first, last)});
  }

  void rooms(std::size_t p) {
    SurveyedPart& part = draft_.made.parts[p];
    std::vector<Ring> bands;
    for (std::size_t i = 0; i < bands_.size(); ++i)
      if (draft_.made.partitions[i].part == p) bands.push_back(bands_[i]);
    for (const Ring& room : draft_.parts[p].rooms) {
      const auto left = left_of(room, bands);
      if (!left) continue;
      for (const Left& cell : *left) {
        constexpr std::int64_t square_foot = 192 * 192;
        part.cells.push_back({Ratio(std::llround(cell.area), square_foot), rounded(cell.round)});
        part.inside_sqft += part.cells.back().area_sqft;
      }
    }
  }

  Draft& draft_;
  Faults& faults_;
  std::vector<Ring> bands_;  ///< alongside made.partitions
};

}  // namespace

void find_partitions(Draft& draft, Faults& faults) { Partitions(draft, faults).find(); }

}  // namespace soundsill::plan
