// Areas less areas, held against GEOS, another library than the one that works them out.
#include <geos_c.h>

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "site/overlay.h"

using namespace soundsill;
using namespace soundsill::plan;

namespace {

class Reference {
 public:
  Reference() : h_(GEOS_init_r()) {}
  ~Reference() { GEOS_finish_r(h_); }
  Reference(const Reference&) = delete;
  Reference& operator=(const Reference&) = delete;

  GEOSGeometry* polygon(const Ring& ring) {
    const auto n = static_cast<unsigned>(ring.size());
    GEOSCoordSequence* all = GEOSCoordSeq_create_r(h_, n + 1, 2);
    for (unsigned i = 0; i <= n; ++i)
      GEOSCoordSeq_setXY_r(h_, all, i, static_cast<double>(ring[i % n].x), static_cast<double>(ring[i % n].y));
    return GEOSGeom_createPolygon_r(h_, GEOSGeom_createLinearRing_r(h_, all), nullptr, 0);
  }
  GEOSGeometry* joined(const std::vector<Ring>& rings) {
    GEOSGeometry* all = GEOSGeom_createEmptyPolygon_r(h_);
    for (const Ring& ring : rings) {
      GEOSGeometry* one = polygon(ring);
      GEOSGeometry* more = GEOSUnion_r(h_, all, one);
      GEOSGeom_destroy_r(h_, all);
      GEOSGeom_destroy_r(h_, one);
      all = more;
    }
    return all;
  }
  /// Area and length round of an outline less others.
  Left less(const Ring& outline, const std::vector<Ring>& bands) {
    GEOSGeometry *whole = polygon(outline), *taken = joined(bands), *left = GEOSDifference_r(h_, whole, taken);
    Left out;
    GEOSArea_r(h_, left, &out.area);
    GEOSLength_r(h_, left, &out.round);
    for (GEOSGeometry* g : {whole, taken, left}) GEOSGeom_destroy_r(h_, g);
    return out;
  }
  double area(const std::vector<Ring>& rings) {
    GEOSGeometry* all = joined(rings);
    double out = 0;
    GEOSArea_r(h_, all, &out);
    GEOSGeom_destroy_r(h_, all);
    return out;
  }
  bool holds(const Ring& ring, Vec point) {
    GEOSGeometry* whole = polygon(ring);
    GEOSGeometry* at = GEOSGeom_createPointFromXY_r(h_, static_cast<double>(point.x), static_cast<double>(point.y));
    const bool out = GEOSContains_r(h_, whole, at) == 1;
    GEOSGeom_destroy_r(h_, whole);
    GEOSGeom_destroy_r(h_, at);
    return out;
  }

 private:
  GEOSContextHandle_t h_;
};

Ring box(std::int64_t x, std::int64_t y, std::int64_t w, std::int64_t h) {
  return {{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}};
}

/// A star-shaped outline with slanting sides.
Ring slanting(std::mt19937& random, Vec middle, int size) {
  Ring out;
  for (int i = 0; i < 9; ++i) {
    const double angle = i * 2 * M_PI / 9, far = size * (0.4 + 0.6 * static_cast<double>(random() % 100) / 100);
    out.push_back({middle.x + std::llround(far * std::cos(angle)), middle.y + std::llround(far * std::sin(angle))});
  }
  return out;
}

}  // namespace

TEST_CASE("what bands leave of outlines has the area and the edges that GEOS finds") {
  std::mt19937 random(8);
  Reference reference;
  for (int round = 0; round < 300; ++round) {
    const auto n = [&](unsigned most) { return static_cast<std::int64_t>(random() % most); };
    const Ring outline = round % 2 ? slanting(random, {4000, 4000}, 4000) : box(0, 0, 2000 + n(9000), 2000 + n(9000));
    std::vector<Ring> bands;
    for (unsigned i = 0; i < 1 + random() % 5; ++i)
      bands.push_back(random() % 3 ? box(n(8000), n(8000), 16 + n(3000), 16 + n(3000))
                                   : slanting(random, {n(8000), n(8000)}, 1000));
    const Left wanted = reference.less(outline, bands);
    const auto left = left_of(outline, bands);
    REQUIRE(left);
    Left sum;
    for (const Left& piece : *left) {
      sum.area += piece.area;
      sum.round += piece.round;
    }
    // Crumbs below a square inch are left out on purpose; the rest agrees to a hundredth of a square inch.
    INFO("round " << round);
    CHECK(std::abs(sum.area - wanted.area) < 256 * 3);
    if (std::abs(sum.area - wanted.area) < 2) CHECK(std::abs(sum.round - wanted.round) < 1);
    CHECK(std::abs(covered(bands) - reference.area(bands)) < 2);
    const auto point = point_within(outline);
    REQUIRE(point);
    CHECK(reference.holds(outline, *point));
  }
}

TEST_CASE("a hole is no area, and its edge counts") {
  const auto left = left_of(box(0, 0, 1000, 1000), {box(400, 400, 100, 100)});
  REQUIRE(left);
  REQUIRE(left->size() == 1);
  CHECK(left->front().area == 1000 * 1000 - 100 * 100);
  CHECK(left->front().round == 4000 + 400);
}

TEST_CASE("outlines share an area when it is wider than an inch") {
  CHECK(share_area(box(0, 0, 1000, 1000), box(900, 0, 1000, 1000)));
  CHECK_FALSE(share_area(box(0, 0, 1000, 1000), box(1000, 0, 1000, 1000)));
  CHECK_FALSE(share_area(box(0, 0, 1000, 1000), box(990, 0, 1000, 1000)));  // ten sixteenths
}

TEST_CASE("a point within lies within, however the outline turns") {
  Reference reference;
  const Ring u{{0, 0}, {900, 0}, {900, 900}, {600, 900}, {600, 100}, {300, 100}, {300, 900}, {0, 900}};
  REQUIRE(point_within(u));
  CHECK(reference.holds(u, *point_within(u)));
  CHECK_FALSE(point_within({{0, 0}, {10, 0}}));
}
