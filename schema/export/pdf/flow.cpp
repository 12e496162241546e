#include "schema/export/pdf/flow.hpp"

#include "schema/export/pdf/text.hpp"

namespace tenth::pdf_page {
namespace {

constexpr Type kSmall{6.3, false, .2};

void rule(const Canvas& canvas, double y) {
  cairo_t* pen = canvas.pen();
  cairo_set_source_rgb(pen, 0, 0, 0);
  cairo_set_line_width(pen, .5);
  cairo_move_to(pen, canvas.left(), y);
  cairo_line_to(pen, canvas.left() + kWidth, y);
  cairo_stroke(pen);
}

}  // namespace

void Flow::keep(double height) {
  if (height > room() && used_ > 0) next_page();
}

void Flow::next_page() {
  end_page();
  ++page_;
  used_ = 0;
}

int Flow::finish() {
  end_page();
  return page_;
}

void Flow::end_page() const {
  write_foot();
  canvas.end_page();
  if (told_) told_(page_, pages_);
}

void Flow::write_foot() const {
  if (!canvas.pen()) return;
  const double foot = canvas.top() + kHeight - 3.4 * kMm;
  rule(canvas, foot - 1 * kMm);
  const Text head(canvas, {{paper_->head, paper::Face::typed}}, kSmall);
  const Text page(canvas, {{"page " + std::to_string(page_) + " of " + std::to_string(pages_)}}, kSmall);
  Text whose(canvas, {{paper_->title, paper::Face::bold}, {" · " + paper_->kind}}, kSmall);
  const double right = canvas.left() + kWidth - page.width(), middle = right - 4 * kMm - head.width();
  whose.cut_to(middle - canvas.left() - 4 * kMm);
  whose.draw(canvas.left(), foot);
  head.draw(middle, foot);
  page.draw(right, foot);
}

}  // namespace tenth::pdf_page
