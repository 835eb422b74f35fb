#include "site/geos.h"

#include <geos_c.h>

#include <cmath>
#include <memory>

namespace soundsill::plan {
namespace {

constexpr double square_inch = 256;  // of sixteenths
constexpr double inch = 16;

// Opened for one question and closed after it: GEOS keeps no state of ours between two.
class Session {
 public:
  Session() : handle_(GEOS_init_r()) {}
  ~Session() { GEOS_finish_r(handle_); }
  Session(const Session&) = delete;
  Session& operator=(const Session&) = delete;
  operator GEOSContextHandle_t() const { return handle_; }  // NOLINT: stands for the handle

 private:
  GEOSContextHandle_t handle_;
};

struct Destroy {
  GEOSContextHandle_t handle = nullptr;
  void operator()(GEOSGeometry* g) const { GEOSGeom_destroy_r(handle, g); }
};
using Geometry = std::unique_ptr<GEOSGeometry, Destroy>;

Geometry own(const Session& s, GEOSGeometry* g) { return {g, Destroy{s}}; }

Geometry polygon(const Session& s, const RealRing& ring) {
  const auto size = static_cast<unsigned>(ring.size());
  GEOSCoordSequence* sequence = GEOSCoordSeq_create_r(s, size + 1, 2);
  for (unsigned i = 0; i <= size; ++i) GEOSCoordSeq_setXY_r(s, sequence, i, ring[i % size].x, ring[i % size].y);
  GEOSGeometry* line = GEOSGeom_createLinearRing_r(s, sequence);
  return own(s, line ? GEOSGeom_createPolygon_r(s, line, nullptr, 0) : nullptr);
}

RealRing real(const Ring& ring) {
  RealRing out;
  for (const Vec v : ring) out.push_back({static_cast<double>(v.x), static_cast<double>(v.y)});
  return out;
}

Geometry joined_bands(const Session& s, const std::vector<RealRing>& bands) {
  std::vector<GEOSGeometry*> all;
  for (const RealRing& band : bands)
    if (Geometry made = polygon(s, band)) all.push_back(made.release());
  const auto size = static_cast<unsigned>(all.size());
  const Geometry collection = own(s, GEOSGeom_createCollection_r(s, GEOS_GEOMETRYCOLLECTION, all.data(), size));
  return own(s, collection ? GEOSUnaryUnion_r(s, collection.get()) : nullptr);
}

RealRing outer_ring(const Session& s, const GEOSGeometry* polygon) {
  RealRing out;
  const GEOSCoordSequence* sequence = GEOSGeom_getCoordSeq_r(s, GEOSGetExteriorRing_r(s, polygon));
  unsigned size = 0;
  GEOSCoordSeq_getSize_r(s, sequence, &size);
  for (unsigned i = 0; i + 1 < size; ++i) {
    Real p;
    GEOSCoordSeq_getXY_r(s, sequence, i, &p.x, &p.y);
    out.push_back(p);
  }
  return out;
}

std::vector<RealRing> outer_rings(const Session& s, const GEOSGeometry* area) {
  std::vector<RealRing> out;
  for (int i = 0; i < GEOSGetNumGeometries_r(s, area); ++i) {
    const GEOSGeometry* piece = GEOSGetGeometryN_r(s, area, i);
    double size = 0;
    if (GEOSGeomTypeId_r(s, piece) != GEOS_POLYGON || GEOSArea_r(s, piece, &size) == 0 || size < square_inch) continue;
    out.push_back(outer_ring(s, piece));
  }
  return out;
}

}  // namespace

std::optional<std::vector<RealRing>> less(const Ring& outline, const std::vector<RealRing>& bands) {
  const Session s;
  const Geometry whole = polygon(s, real(outline));
  if (bands.empty()) return whole ? std::optional(outer_rings(s, whole.get())) : std::nullopt;
  const Geometry taken = joined_bands(s, bands);
  if (!whole || !taken) return std::nullopt;
  const Geometry left = own(s, GEOSDifference_r(s, whole.get(), taken.get()));
  if (!left) return std::nullopt;
  return outer_rings(s, left.get());
}

double covered(const std::vector<Ring>& outlines) {
  const Session s;
  std::vector<RealRing> rings;
  for (const Ring& one : outlines) rings.push_back(real(one));
  const Geometry all = joined_bands(s, rings);
  double area = 0;
  return all && GEOSArea_r(s, all.get(), &area) != 0 ? area : 0;
}

std::optional<std::vector<Left>> left_of(const Ring& outline, const std::vector<Ring>& bands) {
  const Session s;
  const Geometry whole = polygon(s, real(outline));
  std::vector<RealRing> real_bands;
  for (const Ring& band : bands) real_bands.push_back(real(band));
  const Geometry taken = joined_bands(s, real_bands);
  const Geometry rest = own(s, whole && taken ? GEOSDifference_r(s, whole.get(), taken.get()) : nullptr);
  if (!rest) return std::nullopt;
  std::vector<Left> out;
  for (int i = 0; i < GEOSGetNumGeometries_r(s, rest.get()); ++i) {
    const GEOSGeometry* piece = GEOSGetGeometryN_r(s, rest.get(), i);
    Left left;
    if (GEOSGeomTypeId_r(s, piece) != GEOS_POLYGON || GEOSArea_r(s, piece, &left.area) == 0) continue;
    if (left.area < square_inch || GEOSLength_r(s, piece, &left.round) == 0) continue;
    out.push_back(left);
  }
  return out;
}

bool share_area(const Ring& a, const Ring& b) {
  const Session s;
  const Geometry first = polygon(s, real(a)), second = polygon(s, real(b));
  if (!first || !second) return false;
  const Geometry common = own(s, GEOSIntersection_r(s, first.get(), second.get()));
  if (!common) return false;
  // Two parts typed half an inch over one another share a sliver, no room: what is left after half an inch is taken off
  // all round was wider than an inch.
  const Geometry core = own(s, GEOSBuffer_r(s, common.get(), -inch / 2, 8));
  return core && GEOSisEmpty_r(s, core.get()) == 0;
}

std::optional<Vec> point_within(const Ring& ring) {
  if (ring.size() < 3) return std::nullopt;
  const Session s;
  const Geometry area = polygon(s, real(ring));
  if (!area) return std::nullopt;
  const auto read = [&](GEOSGeometry* made) -> std::optional<Vec> {
    const Geometry g = own(s, made);
    double x = 0, y = 0;
    if (!g || GEOSGeomGetX_r(s, g.get(), &x) != 1 || GEOSGeomGetY_r(s, g.get(), &y) != 1) return std::nullopt;
    if (!std::isfinite(x) || !std::isfinite(y)) return std::nullopt;
    return Vec{std::llround(x), std::llround(y)};
  };
  if (const auto middle = read(GEOSGetCentroid_r(s, area.get())); middle && side(*middle, ring) == Side::inside)
    return middle;
  return read(GEOSPointOnSurface_r(s, area.get()));
}

}  // namespace soundsill::plan
