#pragma once

#include <cairo.h>
#include <pango/pango.h>

#include "schema/export/paper/drawing.hpp"
#include "schema/export/pdf/canvas.hpp"

namespace tenth::pdf_page {

/// How high a drawing is where it is so wide.
double height_of(const paper::Drawing& drawing, double width);

void draw(const Canvas& canvas, const paper::Drawing& drawing, double x, double y, double width);

/// For Pango: a sign within a line, where the shape's data is the sign's number.
void draw_sign(cairo_t* pen, PangoAttrShape* shape, gboolean only_path, gpointer data);

}  // namespace tenth::pdf_page
