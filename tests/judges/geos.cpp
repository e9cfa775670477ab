#include "judges/geos.h"

#include <cmath>
#include <string>

namespace leeway::geos {
namespace {

std::string last_message;

void remember(const char* message, void*) { last_message = message; }

GEOSContextHandle_t start() {
  GEOSContextHandle_t handle = GEOS_init_r();
  GEOSContext_setErrorMessageHandler_r(handle, remember, nullptr);
  return handle;
}

[[noreturn]] void fail() { throw Error("GEOS: " + last_message); }

double scaled(double v, double scale) {
  if (scale == 1) return v;
  const double whole = std::round(v * scale);
  return std::abs(v * scale - whole) < 1e-6 ? whole : v * scale;
}

GEOSCoordSequence* sequence(const Ring& ring, Point by, double scale) {
  std::vector<double> xy;
  xy.reserve(2 * ring.size() + 2);
  const auto add = [&](Point p) {
    xy.push_back(scaled(p.x, scale) + by.x);
    xy.push_back(scaled(p.y, scale) + by.y);
  };
  for (const Point& p : ring) add(p);
  if (!ring.empty() && !(ring.front() == ring.back())) add(ring.front());
  GEOSCoordSequence* made = GEOSCoordSeq_copyFromBuffer_r(
      context(), xy.data(), static_cast<unsigned>(xy.size() / 2), 0, 0);
  if (made == nullptr) fail();
  return made;
}

Geometry linear_ring(const Ring& ring, Point by, double scale) {
  return checked(GEOSGeom_createLinearRing_r(context(), sequence(ring, by, scale)));
}

Geometry polygon(const Polygon& p, Point by, double scale) {
  Geometry outer = linear_ring(p.outer, by, scale);
  std::vector<GEOSGeometry*> holes;
  for (const Ring& hole : p.holes) holes.push_back(linear_ring(hole, by, scale).release());
  return checked(GEOSGeom_createPolygon_r(context(), outer.release(), holes.data(),
                                          static_cast<unsigned>(holes.size())));
}

Ring ring_points(const GEOSGeometry* ring) {
  const GEOSCoordSequence* points = GEOSGeom_getCoordSeq_r(context(), ring);
  unsigned n = 0;
  GEOSCoordSeq_getSize_r(context(), points, &n);
  Ring out;
  for (unsigned i = 0; i + 1 < n; ++i) {
    Point p;
    GEOSCoordSeq_getXY_r(context(), points, i, &p.x, &p.y);
    out.push_back(p);
  }
  return out;
}

void add_rings(const GEOSGeometry* g, std::vector<Ring>& out) {
  if (GEOSGeomTypeId_r(context(), g) == GEOS_POLYGON) {
    if (GEOSisEmpty_r(context(), g)) return;
    out.push_back(ring_points(GEOSGetExteriorRing_r(context(), g)));
    const int holes = GEOSGetNumInteriorRings_r(context(), g);
    for (int i = 0; i < holes; ++i) {
      out.push_back(ring_points(GEOSGetInteriorRingN_r(context(), g, i)));
    }
    return;
  }
  const int parts = GEOSGetNumGeometries_r(context(), g);
  for (int i = 0; i < parts; ++i) {
    const GEOSGeometry* part = GEOSGetGeometryN_r(context(), g, i);
    if (part != g && GEOSGeom_getDimensions_r(context(), part) == 2) add_rings(part, out);
  }
}

}  // namespace

GEOSContextHandle_t context() {
  static const GEOSContextHandle_t handle = start();
  return handle;
}

void Destroy::operator()(GEOSGeometry* g) const { GEOSGeom_destroy_r(context(), g); }
void Destroy::operator()(const GEOSPreparedGeometry* g) const {
  GEOSPreparedGeom_destroy_r(context(), g);
}

Geometry checked(GEOSGeometry* g) {
  if (g == nullptr) fail();
  return Geometry(g);
}

bool checked(char answer) {
  if (answer == 2) fail();
  return answer == 1;
}

Geometry point(Point at) { return checked(GEOSGeom_createPointFromXY_r(context(), at.x, at.y)); }

Geometry ring_polygon(const Ring& ring, Point by, double scale) {
  return polygon({ring, {}}, by, scale);
}

Geometry polygons(const MultiPolygon& parts, Point by, double scale) {
  if (parts.size() == 1) return polygon(parts.front(), by, scale);
  std::vector<GEOSGeometry*> made;
  for (const Polygon& p : parts) made.push_back(polygon(p, by, scale).release());
  return checked(GEOSGeom_createCollection_r(context(), GEOS_MULTIPOLYGON, made.data(),
                                             static_cast<unsigned>(made.size())));
}

Geometry box(const Box& b, double scale) {
  return ring_polygon({{b.x0, b.y0}, {b.x1, b.y0}, {b.x1, b.y1}, {b.x0, b.y1}}, {}, scale);
}

Geometry hull_of(const std::vector<Point>& points) {
  const Geometry line = checked(GEOSGeom_createLineString_r(context(), sequence(points, {}, 1)));
  return checked(GEOSConvexHull_r(context(), line.get()));
}

Geometry boundary(const Geometry& of) { return checked(GEOSBoundary_r(context(), of.get())); }

Geometry collection(std::vector<Geometry> parts) {
  std::vector<GEOSGeometry*> raw;
  for (Geometry& part : parts) raw.push_back(part.release());
  return checked(GEOSGeom_createCollection_r(context(), GEOS_GEOMETRYCOLLECTION, raw.data(),
                                             static_cast<unsigned>(raw.size())));
}

Prepared prepared(const Geometry& of) {
  const GEOSPreparedGeometry* made = GEOSPrepare_r(context(), of.get());
  if (made == nullptr) fail();
  return Prepared(made);
}

double area(const Geometry& of) {
  double a = 0;
  if (!GEOSArea_r(context(), of.get(), &a)) fail();
  return a;
}

double length(const Geometry& of) {
  double l = 0;
  if (!GEOSLength_r(context(), of.get(), &l)) fail();
  return l;
}

double distance(const Geometry& a, const Geometry& b) {
  double d = 0;
  if (!GEOSDistance_r(context(), a.get(), b.get(), &d)) fail();
  return d;
}

bool empty(const Geometry& of) { return checked(GEOSisEmpty_r(context(), of.get())); }

std::vector<Ring> rings(const GEOSGeometry* of) {
  std::vector<Ring> out;
  add_rings(of, out);
  return out;
}

}  // namespace leeway::geos
