#pragma once

#include <string>
#include <vector>

namespace tenth::paper {

/// What a line or an area of a drawing stands for; how that looks is one table for screen and print (`look_of`).
enum class Ink {
  allowed,
  limit,
  inner,
  outline,
  touch,
  beyond,
  axis,
  size,
  level,
  span,
  mean,
  target,
  sign,
  dashes,
  solid,
  cut,
  dark
};

/// Greys from 0, black, to 1, white; below 0: nothing. Widths, dashes and the height of words are in the drawing's own
/// units.
struct Look {
  double fill = -1, stroke = -1, width = 0, dash = 0, height = 0;
  bool bold = false;
};
const Look& look_of(Ink ink);
std::string name(Ink ink);
inline constexpr int kInks = 17;

struct Point {
  double x = 0, y = 0;
};

struct Shape {
  /// `boxes`: every two points are opposite corners. `words` stand about their point, turned clockwise.
  enum class Kind { circle, line, area, boxes, words };
  Kind kind = Kind::line;
  Ink ink = Ink::limit;
  std::vector<Point> points;
  double radius = 0;
  double degrees = 0;
  std::string text = {};
};

/// A picture in black and white, in units of its own, y downwards; nothing in it is told by colour.
struct Drawing {
  std::string kind;  ///< "bar", "outline", "sign" or "qr"
  double width = 0, height = 0;
  double mm = 0;  ///< how wide it is on paper
  std::vector<Shape> shapes;
};

Shape circle(Ink ink, Point centre, double radius);
Shape line(Ink ink, std::vector<Point> points);
Shape area(Ink ink, std::vector<Point> points);
Shape box(Ink ink, Point corner, Point opposite);
Shape words(Ink ink, Point middle, double degrees, std::string text);

}  // namespace tenth::paper
