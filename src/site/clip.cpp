#include "site/clip.h"

#include <algorithm>
#include <optional>

namespace soundsill::plan {
namespace {

constexpr long double nothing =
    1e-12L;  // shares of a segment; a sixteenth of 10,000 ft is five hundred thousand times more

long double real(Wide n) { return static_cast<long double>(n); }
long double share(Vec a, Vec b, Vec p) { return real(dot(p - a, b - a)) / real(dot(b - a, b - a)); }
bool in_line(Vec a, Vec b, Vec c, Vec d) { return cross(b - a, c - a) == 0 && cross(b - a, d - a) == 0; }

void cut(std::vector<long double>& cuts, Vec a, Vec b, Vec c, Vec d) {
  const auto add = [&](long double t) {
    if (t > 0 && t < 1) cuts.push_back(t);
  };
  const Wide slant = cross(b - a, d - c);
  if (slant != 0) add(real(cross(c - a, d - c)) / real(slant));
  if (!in_line(a, b, c, d)) return;
  add(share(a, b, c));
  add(share(a, b, d));
}

// Between two cuts: along an edge, or clear of every edge.
bool lies_within(long double t, Vec a, Vec b, const Ring& ring) {
  const long double x = real(a.x) + t * real(b.x - a.x), y = real(a.y) + t * real(b.y - a.y);
  bool in = false;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec c = ring[i], d = ring[after(i, ring.size())];
    if (in_line(a, b, c, d)) {
      const long double from = share(a, b, c), to = share(a, b, d);
      if (std::min(from, to) <= t && t <= std::max(from, to)) return true;
    }
    if ((real(c.y) > y) == (real(d.y) > y)) continue;
    const long double at = real(c.x) + (y - real(c.y)) * real(d.x - c.x) / real(d.y - c.y);
    if (x < at) in = !in;
  }
  return in;
}

// The piece of the way from a to b along an edge from c to d in line with it; nothing when they have none in common.
std::optional<Piece> along_edge(Vec a, Vec b, Vec c, Vec d) {
  if (a == b || c == d || !in_line(a, b, c, d)) return std::nullopt;
  const long double from = share(a, b, c), to = share(a, b, d);
  const Piece piece{std::max(std::min(from, to), 0.0L), std::min(std::max(from, to), 1.0L)};
  return piece.second - piece.first > nothing ? std::optional(piece) : std::nullopt;
}

}  // namespace

std::vector<Piece> joined(std::vector<Piece> pieces) {
  std::sort(pieces.begin(), pieces.end());
  std::vector<Piece> out;
  for (const Piece& p : pieces) {
    if (!out.empty() && p.first <= out.back().second + nothing)
      out.back().second = std::max(out.back().second, p.second);
    else
      out.push_back(p);
  }
  return out;
}

std::vector<Piece> clipped(Vec a, Vec b, const Ring& ring) {
  std::vector<Piece> out;
  if (a == b || ring.size() < 3) return out;
  std::vector<long double> cuts{0, 1};
  for (std::size_t i = 0; i < ring.size(); ++i) cut(cuts, a, b, ring[i], ring[after(i, ring.size())]);
  std::sort(cuts.begin(), cuts.end());
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i)
    if (cuts[i + 1] - cuts[i] > nothing && lies_within((cuts[i] + cuts[i + 1]) / 2, a, b, ring))
      out.emplace_back(cuts[i], cuts[i + 1]);
  return joined(std::move(out));
}

std::vector<Piece> remaining(std::vector<Piece> from, const std::vector<Piece>& less) {
  for (const Piece& cut : joined(less)) {
    std::vector<Piece> next;
    for (const Piece& p : from) {
      if (p.first < cut.first) next.emplace_back(p.first, std::min(p.second, cut.first));
      if (cut.second < p.second) next.emplace_back(std::max(p.first, cut.second), p.second);
    }
    from = std::move(next);
  }
  std::erase_if(from, [](const Piece& p) { return p.second - p.first < 1e-9L; });
  return from;
}

std::vector<Piece> along_edges(Vec a, Vec b, const Ring& ring) {
  std::vector<Piece> out;
  for (std::size_t i = 0; i < ring.size(); ++i)
    if (const auto piece = along_edge(a, b, ring[i], ring[after(i, ring.size())])) out.push_back(*piece);
  return joined(std::move(out));
}

std::vector<Piece> left_covered(Vec a, Vec b, const Ring& ring) {
  const bool clockwise = twice_area(ring) > 0;
  std::vector<Piece> right;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Vec c = ring[i], d = ring[after(i, ring.size())];
    const auto piece = along_edge(a, b, c, d);
    if (piece && (dot(b - a, d - c) > 0) == clockwise) right.push_back(*piece);
  }
  return remaining(clipped(a, b, ring), right);
}

}  // namespace soundsill::plan
