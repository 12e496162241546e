#include "schema/export/pdf/table.hpp"

#include <algorithm>

#include "schema/export/pdf/columns.hpp"
#include "schema/export/pdf/picture.hpp"
#include "schema/export/pdf/text.hpp"

namespace tenth::pdf_page {
namespace {

using paper::Cell;
using paper::Density;
using paper::Manner;
using paper::Table;

/// How a table of a density looks: its letters, the white between columns and above and below a line, the least height
/// of a row, and whether its cells have frames to write in.
struct Look {
  Type type, head;
  double between, above, least;
  bool frames;
};

Look look_of(Density density) {
  switch (density) {
    case Density::figures:
      return {{8.8}, {8, false, .25}, 2 * kMm, .6 * kMm, 0, false};
    case Density::list:
      return {{6.6}, {6.6, false, .25}, 1.6 * kMm, .45 * kMm, 0, false};
    case Density::form:
      return {{8.4}, {8, false, .25}, 3 * kMm, .6 * kMm, 7.5 * kMm, true};
  }
  return {};
}

/// What stands in one cell of a row, ready to be drawn.
struct Set {
  std::optional<Text> text;
  const paper::Drawing* picture = nullptr;
  double width = 0;
  int line = 0;  ///< the first that is not drawn yet

  double height() const {
    return picture ? height_of(*picture, std::min(picture->mm * kMm, width)) : text ? text->height() : 0;
  }
  bool is_done() const { return !text || line >= text->lines(); }
};

class Printer {
 public:
  Printer(Flow& flow, const Table& table)
      : flow_(flow),
        table_(table),
        look_(look_of(table.density)),
        widths_(column_widths(flow.canvas, table, look_.type, look_.between)) {}

  void print() {
    std::vector<Set> head;
    for (std::size_t i = 0; i < table_.columns.size(); ++i)
      head.push_back(set({{table_.columns[i].head}}, i, look_.head));
    const double least = height_of_row(head) + 3 * look_.type.size;
    flow_.keep(least);
    print_head(head);
    for (const paper::Cells& row : table_.rows) print_row(row, head);
  }

 private:
  Set set(const paper::Line& line, std::size_t column, const Type& type) const {
    const double width = widths_[column] - look_.between;
    return {Text(flow_.canvas, line, type, width), nullptr, width};
  }

  Set set(const Cell& cell, std::size_t column) const {
    const Manner manner = table_.columns[column].manner;
    if (cell.picture) return {std::nullopt, &*cell.picture, widths_[column] - look_.between};
    if (is_empty(cell.line)) return manner == Manner::hand ? Set{} : set(paper::Line{{"–"}}, column, look_.type);
    Type type = look_.type;
    type.bold = manner == Manner::number;
    return set(cell.line, column, type);
  }

  double height_of_row(const std::vector<Set>& row) const {
    double height = 0;
    for (const Set& cell : row) height = std::max(height, cell.height());
    return height + 2 * look_.above;
  }

  void rule(double y, double width, double grey) const {
    cairo_t* pen = flow_.canvas.pen();
    if (!pen) return;
    cairo_set_source_rgb(pen, grey, grey, grey);
    cairo_set_line_width(pen, width);
    cairo_move_to(pen, flow_.x(), y);
    cairo_line_to(pen, flow_.x() + kWidth, y);
    cairo_stroke(pen);
  }

  void frames(double height) const {
    cairo_t* pen = flow_.canvas.pen();
    if (!pen) return;
    cairo_set_source_rgb(pen, .45, .45, .45);
    cairo_set_line_width(pen, .4);
    double x = flow_.x();
    for (const double width : widths_) {
      cairo_rectangle(pen, x, flow_.y(), width, height);
      x += width;
    }
    cairo_stroke(pen);
  }

  /// As much of the cells as there is room for on this page: how high that is.
  double draw(std::vector<Set>& row, double room, double height) const {
    double x = flow_.x() + (look_.frames ? look_.between / 2 : 0), high = 0;
    for (std::size_t i = 0; i < row.size(); ++i) {
      Set& cell = row[i];
      const double above = look_.frames ? std::max((height - cell.height()) / 2, look_.above) : look_.above;
      if (cell.picture)
        pdf_page::draw(flow_.canvas, *cell.picture, x, flow_.y() + above, std::min(cell.picture->mm * kMm, cell.width));
      if (cell.text)
        high = std::max(high, cell.text->draw_some(x, flow_.y() + above, room - 2 * look_.above, cell.line));
      x += widths_[i];
    }
    return std::max(high + 2 * look_.above, height);
  }

  void print_head(std::vector<Set>& head) {
    const double height = height_of_row(head);
    for (Set& cell : head) cell.line = 0;
    draw(head, flow_.room(), look_.frames ? 0 : height);
    flow_.advance(height);
    rule(flow_.y(), .8, 0);
  }

  void next_page(std::vector<Set>& head) {
    flow_.next_page();
    print_head(head);
  }

  /// A row stays whole where a page can hold it; a longer one goes on on the next.
  void print_row(const paper::Cells& cells, std::vector<Set>& head) {
    if (cells.size() == 1) return print_day(cells[0], head);
    std::vector<Set> row;
    for (std::size_t i = 0; i < cells.size(); ++i) row.push_back(set(cells[i], i));
    const double height = std::max(height_of_row(row), look_.least), head_height = height_of_row(head);
    if (height > flow_.room() && flow_.used() > head_height) next_page(head);
    if (height <= flow_.room()) return end_row(draw(row, flow_.room(), height));
    while (true) {
      end_row(draw(row, flow_.room(), 0));
      if (std::ranges::all_of(row, &Set::is_done)) return;
      next_page(head);
    }
  }

  void end_row(double height) {
    if (look_.frames) frames(height);
    flow_.advance(height);
    if (!look_.frames) rule(flow_.y(), .4, .73);
  }

  void print_day(const Cell& cell, std::vector<Set>& head) {
    Type type = look_.type;
    type.bold = true;
    const Text text(flow_.canvas, cell.line, type, kWidth);
    if (text.height() + 4 * type.size > flow_.room()) next_page(head);
    flow_.advance(1.2 * kMm);
    text.draw(flow_.x(), flow_.y());
    end_row(text.height() + look_.above);
  }

  Flow& flow_;
  const Table& table_;
  Look look_;
  std::vector<double> widths_;
};

}  // namespace

void print(Flow& flow, const Table& table) {
  Printer(flow, table).print();
}

}  // namespace tenth::pdf_page
