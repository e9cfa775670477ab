#pragma once
// Just enough of GEOS (https://libgeos.org, its C interface) to hold our own geometry against it.
// Nothing here uses any of our own geometry.

#include <geos_c.h>

#include <memory>
#include <stdexcept>
#include <vector>

#include "leeway/geometry.h"

namespace leeway::geos {

class Error : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

struct Destroy {
  void operator()(GEOSGeometry* g) const;
  void operator()(const GEOSPreparedGeometry* g) const;
};
using Geometry = std::unique_ptr<GEOSGeometry, Destroy>;
using Prepared = std::unique_ptr<const GEOSPreparedGeometry, Destroy>;

// One handle for the whole program: no threads here.
GEOSContextHandle_t context();

// Throws Error with the last message of GEOS where `g` is null.
Geometry checked(GEOSGeometry* g);
bool checked(char answer);  // 2 is GEOS's word for an exception

// Each coordinate is multiplied by `scale` and then moved: 1 for mm, 1000 for micrometres, where
// decimals that mean whole micrometres become whole numbers.
Geometry point(Point at);
Geometry ring_polygon(const Ring& ring, Point by = {}, double scale = 1);
Geometry polygons(const MultiPolygon& polygons, Point by = {}, double scale = 1);
Geometry box(const Box& box, double scale = 1);
Geometry hull_of(const std::vector<Point>& points);
Geometry boundary(const Geometry& of);
Geometry collection(std::vector<Geometry> parts);
Prepared prepared(const Geometry& of);

double area(const Geometry& of);
double length(const Geometry& of);
double distance(const Geometry& a, const Geometry& b);
bool empty(const Geometry& of);

// The vertices of every ring, without closing points.
std::vector<Ring> rings(const GEOSGeometry* of);
inline std::vector<Ring> rings(const Geometry& of) { return rings(of.get()); }

}  // namespace leeway::geos
