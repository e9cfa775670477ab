#include "geometry/overlay/overlay_boost.h"

#include <boost/geometry/algorithms/difference.hpp>
#include <boost/geometry/algorithms/intersection.hpp>
#include <boost/geometry/algorithms/union.hpp>
#include <boost/geometry/geometries/register/point.hpp>
#include <boost/geometry/strategies/strategies.hpp>

#include "geometry/overlay/overlay_rings.h"
#include "geometry/plane/assert.h"

// Our own types are made known to Boost, so that nothing is copied on the way in or out.
BOOST_GEOMETRY_REGISTER_POINT_2D(leeway::Point, double, boost::geometry::cs::cartesian, x, y)

namespace boost::geometry::traits {

template <>
struct tag<leeway::Ring> {
  using type = ring_tag;
};
// Rings are as overlay_rings.h leaves them: counter-clockwise outside, without a closing point.
template <>
struct point_order<leeway::Ring> {
  static const order_selector value = counterclockwise;
};
template <>
struct closure<leeway::Ring> {
  static const closure_selector value = open;
};

template <>
struct tag<leeway::Polygon> {
  using type = polygon_tag;
};
template <>
struct ring_mutable_type<leeway::Polygon> {
  using type = leeway::Ring&;
};
template <>
struct ring_const_type<leeway::Polygon> {
  using type = const leeway::Ring&;
};
template <>
struct interior_mutable_type<leeway::Polygon> {
  using type = std::vector<leeway::Ring>&;
};
template <>
struct interior_const_type<leeway::Polygon> {
  using type = const std::vector<leeway::Ring>&;
};
template <>
struct exterior_ring<leeway::Polygon> {
  static leeway::Ring& get(leeway::Polygon& p) { return p.outer; }
  static const leeway::Ring& get(const leeway::Polygon& p) { return p.outer; }
};
template <>
struct interior_rings<leeway::Polygon> {
  static std::vector<leeway::Ring>& get(leeway::Polygon& p) { return p.holes; }
  static const std::vector<leeway::Ring>& get(const leeway::Polygon& p) { return p.holes; }
};

template <>
struct tag<leeway::MultiPolygon> {
  using type = multi_polygon_tag;
};

}  // namespace boost::geometry::traits

namespace leeway::overlay {

MultiPolygon boost_overlay(Operation operation, const MultiPolygon& a, const MultiPolygon& b) {
  LEEWAY_ASSERT(winds_right(a) && winds_right(b));
  MultiPolygon result;
  switch (operation) {
    case Operation::unite:
      boost::geometry::union_(a, b, result);
      break;
    case Operation::intersect:
      boost::geometry::intersection(a, b, result);
      break;
    case Operation::subtract:
      boost::geometry::difference(a, b, result);
      break;
  }
  return result;
}

}  // namespace leeway::overlay
