#include "schema/export/pdf/picture.hpp"

#include <cstdint>
#include <numbers>

#include "schema/export/paper/paper.hpp"
#include "schema/export/pdf/text.hpp"

namespace tenth::pdf_page {
namespace {

using paper::Drawing;
using paper::Look;
using paper::Point;
using paper::Shape;

void trace(cairo_t* pen, const Shape& shape) {
  const auto& points = shape.points;
  cairo_new_path(pen);
  if (shape.kind == Shape::Kind::circle) {
    cairo_arc(pen, points[0].x, points[0].y, shape.radius, 0, 2 * std::numbers::pi);
    return cairo_close_path(pen);
  }
  if (shape.kind == Shape::Kind::boxes) {
    for (std::size_t i = 0; i + 1 < points.size(); i += 2)
      cairo_rectangle(pen, points[i].x, points[i].y, points[i + 1].x - points[i].x, points[i + 1].y - points[i].y);
    return;
  }
  for (const Point point : points) cairo_line_to(pen, point.x, point.y);
  if (shape.kind == Shape::Kind::area) cairo_close_path(pen);
}

void paint(cairo_t* pen, const Look& look) {
  if (look.fill >= 0) {
    cairo_set_source_rgb(pen, look.fill, look.fill, look.fill);
    cairo_fill_preserve(pen);
  }
  if (look.stroke >= 0) {
    cairo_set_source_rgb(pen, look.stroke, look.stroke, look.stroke);
    cairo_set_line_width(pen, look.width);
    cairo_set_dash(pen, &look.dash, look.dash > 0 ? 1 : 0, 0);
    cairo_set_line_join(pen, CAIRO_LINE_JOIN_ROUND);
    cairo_stroke_preserve(pen);
  }
  cairo_new_path(pen);
}

/// In the middle of its point; a name too long for the picture is cut short.
void write(const Canvas& canvas, const Shape& shape, double most) {
  const Look& look = look_of(shape.ink);
  Text text(canvas, {{shape.text}}, {look.height, look.bold, look.fill});
  text.cut_to(most);
  cairo_t* pen = canvas.pen();
  cairo_save(pen);
  cairo_translate(pen, shape.points[0].x, shape.points[0].y);
  cairo_rotate(pen, shape.degrees * std::numbers::pi / 180);
  text.draw(-text.width() / 2, -text.height() / 2);
  cairo_restore(pen);
}

void draw_shapes(cairo_t* pen, const Drawing& drawing) {
  for (const Shape& shape : drawing.shapes) {
    if (shape.kind == Shape::Kind::words) continue;
    trace(pen, shape);
    paint(pen, look_of(shape.ink));
  }
}

}  // namespace

double height_of(const Drawing& drawing, double width) {
  return width * drawing.height / drawing.width;
}

void draw(const Canvas& canvas, const Drawing& drawing, double x, double y, double width) {
  cairo_t* pen = canvas.pen();
  if (!pen) return;
  cairo_save(pen);
  cairo_translate(pen, x, y);
  cairo_scale(pen, width / drawing.width, width / drawing.width);
  draw_shapes(pen, drawing);
  for (const Shape& shape : drawing.shapes)
    if (shape.kind == Shape::Kind::words) write(canvas, shape, drawing.width);
  cairo_restore(pen);
}

void draw_sign(cairo_t* pen, PangoAttrShape* shape, gboolean, gpointer) {
  const auto sign = static_cast<paper::Sign>(reinterpret_cast<std::intptr_t>(shape->data));  // as `Text` put it
  const Drawing drawing = drawing_of(sign);
  double x = 0, y = 0;
  cairo_get_current_point(pen, &x, &y);
  const double size = -static_cast<double>(shape->ink_rect.y) / PANGO_SCALE;
  cairo_save(pen);
  cairo_translate(pen, x, y - size * .86);
  cairo_scale(pen, size / drawing.width, size / drawing.width);
  draw_shapes(pen, drawing);
  cairo_restore(pen);
}

}  // namespace tenth::pdf_page
