#include "schema/export/html/svg.hpp"

#include <cmath>

#include "schema/export/html/markup.hpp"

namespace tenth::html_page {
namespace {

using paper::Ink;
using paper::Look;
using paper::Point;
using paper::Shape;

std::string attribute(const char* key, double value) {
  return " " + std::string(key) + "=\"" + number(value) + "\"";
}

std::string pair(Point point) {
  return number(point.x) + " " + number(point.y);
}

std::string path_of(const Shape& shape) {
  std::string path;
  if (shape.kind == Shape::Kind::boxes) {
    for (std::size_t i = 0; i + 1 < shape.points.size(); i += 2) {
      const Point a = shape.points[i], b = shape.points[i + 1];
      path += "M" + pair(a) + "H" + number(b.x) + "V" + number(b.y) + "H" + number(a.x) + "z";
    }
    return path;
  }
  for (const Point point : shape.points) path += (path.empty() ? "M" : "L") + pair(point);
  return path + (shape.kind == Shape::Kind::area ? "z" : "");
}

std::string markup_of(const Shape& shape) {
  const std::string css_class = " class=\"" + name(shape.ink) + "\"";
  if (shape.kind == Shape::Kind::circle)
    return "<circle" + css_class + attribute("cx", shape.points[0].x) + attribute("cy", shape.points[0].y) +
           attribute("r", shape.radius) + "/>";
  if (shape.kind != Shape::Kind::words) return "<path" + css_class + " d=\"" + path_of(shape) + "\"/>";
  const Point p = shape.points[0];
  std::string opening = "text" + css_class + attribute("x", p.x) + attribute("y", p.y);
  if (shape.degrees != 0)
    opening += " transform=\"rotate(" + number(shape.degrees) + " " + number(p.x) + " " + number(p.y) + ")\"";
  return element(opening, escaped(shape.text));
}

std::string grey(double value) {
  if (value < 0) return "none";
  const auto percent = static_cast<int>(std::lround(value * 100));
  return "hsl(0 0% " + std::to_string(percent) + "%)";
}

}  // namespace

std::string svg(const paper::Drawing& drawing) {
  std::string shapes;
  for (const Shape& shape : drawing.shapes) shapes += markup_of(shape);
  return element("svg class=\"" + drawing.kind + "\" role=\"img\" viewBox=\"0 0 " + number(drawing.width) + " " +
                     number(drawing.height) + "\"",
                 shapes);
}

std::string ink_styles() {
  std::string styles;
  for (int i = 0; i < paper::kInks; ++i) {
    const Look& look = look_of(static_cast<Ink>(i));
    styles += "svg ." + name(static_cast<Ink>(i)) + " { fill: " + grey(look.fill) + "; stroke: " + grey(look.stroke) +
              "; stroke-width: " + number(look.width);
    if (look.dash > 0) styles += "; stroke-dasharray: " + number(look.dash);
    if (look.height > 0) styles += "; font-size: " + number(look.height) + "px";
    if (look.bold) styles += "; font-weight: bold";
    styles += "; }\n";
  }
  return styles;
}

}  // namespace tenth::html_page
