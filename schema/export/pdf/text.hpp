#pragma once

#include <optional>

#include "schema/export/paper/paper.hpp"
#include "schema/export/pdf/canvas.hpp"

namespace tenth::pdf_page {

/// How words look: their size in points, and a grey from 0, black.
struct Type {
  double size = 9;
  bool bold = false;
  double grey = .07;
};

/// A line of a paper set in type, in any script; broken where it is wider than it may be, also within a word. Control
/// characters stand as \xHH.
class Text {
 public:
  Text(const Canvas& canvas, const paper::Line& line, const Type& type, std::optional<double> width = {});

  void break_at(double width);  ///< the width that it may take
  void centre();                ///< its lines within that width
  void cut_to(double width);    ///< one line, cut short where it is wider
  double width() const;         ///< that it takes
  double widest_word() const;
  double height() const;

  void draw(double x, double y) const;

  /// Draws lines from `line` on, as many as there is room for, and at least one where `room` is that of a whole page.
  /// How high they are; `line` is then the first that is left, or that after the last.
  double draw_some(double x, double y, double room, int& line) const;
  int lines() const;

 private:
  const Canvas* canvas_;
  double grey_;
  Owned<PangoLayout, g_object_unref> layout_;
};

}  // namespace tenth::pdf_page
