#include "schema/export/pdf/blocks.hpp"

#include <algorithm>
#include <utility>

#include "schema/export/paper/qr.hpp"
#include "schema/export/pdf/picture.hpp"
#include "schema/export/pdf/table.hpp"
#include "schema/export/pdf/text.hpp"

namespace tenth::pdf_page {
namespace {

using namespace paper;

constexpr double kMostCaption = 14 * kMm;  // a name of a page would leave no room for the picture
constexpr Type kPlain{9.3}, kAsked{8.4, false, .2}, kLabel{8, false, .25};

struct Printer {
  Flow& flow;

  void operator()(const Paragraph& paragraph) const {
    flow.gap(1.2 * kMm);
    print_text(flow, paragraph.line, paragraph.tone == Tone::plain ? kPlain : kAsked, 0, 170 * kMm);
    flow.advance(.8 * kMm);
  }

  void operator()(const Items& items) const {
    for (const std::string& sentence : items.sentences) {
      flow.gap(1.2 * kMm);
      flow.keep(2 * kPlain.size);
      Text(flow.canvas, {{"–"}}, kPlain).draw(flow.x(), flow.y());
      print_text(flow, {{sentence}}, kPlain, 4 * kMm, 174 * kMm);
    }
  }

  /// Two columns of what and is; what is too long for that stands by itself.
  void operator()(const Facts& facts) const {
    constexpr double kHalf = kWidth / 2, kWhat = 30 * kMm, kLong = 40 * kMm;
    double height = 0;
    bool right = false;
    for (const auto& [what, is] : facts.rows) {
      const Text subject(flow.canvas, {{what}}, kLabel, kWhat - 2 * kMm);
      const Text fact(flow.canvas, {{is}}, kPlain, kHalf - kWhat - 3 * kMm);
      const double high = std::max(subject.height(), fact.height());
      if (high > kLong) {
        flow.advance(std::exchange(height, 0));
        right = false;
        print_text(flow, {{what + ": "}, {is}}, kPlain);
        continue;
      }
      if (!right) flow.advance(std::exchange(height, 0));
      flow.keep(kLong);
      const double x = flow.x() + (right ? kHalf : 0);
      subject.draw(x, flow.y());
      fact.draw(x + kWhat, flow.y());
      height = std::max(height, high + .6 * kMm);
      right = !right;
    }
    flow.advance(height);
  }

  void operator()(const Whole& whole) const {
    constexpr double kInside = 5 * kMm, kMark = 28 * kMm;
    flow.gap(3 * kMm);
    flow.keep(30 * kMm);
    const double top = flow.used();
    const int page = flow.page();
    flow.advance(3 * kMm);
    print_text(flow, {whole.verdict}, {17, true, 0}, kInside);
    print_text(flow, {{whole.sentence}}, kPlain, kInside);
    for (const auto& [mark, why] : whole.against) {
      flow.advance(.6 * kMm);
      flow.keep(2 * kPlain.size);
      Text(flow.canvas, {mark}, kPlain).draw(flow.x() + kInside, flow.y());
      print_text(flow, {{why}}, kPlain, kInside + kMark, kWidth - kInside);
    }
    flow.advance(3 * kMm);
    if (flow.page() == page) frame(top);
  }

  void operator()(const Pictures& pictures) const {
    const auto in_a_row = static_cast<std::size_t>(pictures.in_a_row);
    flow.gap(1.5 * kMm);
    for (std::size_t from = 0; from < pictures.pictures.size(); from += in_a_row) print_row(pictures, from);
  }

  void operator()(const Table& table) const {
    flow.gap(1.2 * kMm);
    pdf_page::print(flow, table);
    flow.advance(2 * kMm);
  }

  void operator()(const HeadOfChain& head) const {
    const Drawing code = qr_code(head.text);
    const double side = code.mm * kMm;
    flow.keep(side);
    draw(flow.canvas, code, flow.x(), flow.y(), side);
    const Text text(flow.canvas, {{head.text, Face::typed}}, {9}, kWidth - side - 6 * kMm);
    text.draw(flow.x() + side + 4 * kMm, flow.y() + (side - text.height()) / 2);
    flow.advance(side);
  }

  void operator()(const Signatures& signatures) const {
    constexpr double kRow = 17 * kMm, kName = 68 * kMm, kDate = 136 * kMm;
    for (const std::string& meaning : signatures.meanings) {
      flow.keep(kRow);
      flow.advance(12 * kMm);
      sign_here(0, kName - 6 * kMm, meaning);
      sign_here(kName, kDate - 6 * kMm, "name");
      sign_here(kDate, kWidth, "date");
      flow.advance(kRow - 12 * kMm);
    }
  }

 private:
  void frame(double top) const {
    cairo_t* pen = flow.canvas.pen();
    if (!pen) return;
    cairo_set_source_rgb(pen, 0, 0, 0);
    cairo_set_line_width(pen, 1.5);
    cairo_rectangle(pen, flow.x(), flow.canvas.top() + top, kWidth, flow.used() - top);
    cairo_stroke(pen);
  }

  void sign_here(double from, double to, const std::string& meaning) const {
    Text(flow.canvas, {{meaning}}, kLabel).draw(flow.x() + from, flow.y() + .6 * kMm);
    cairo_t* pen = flow.canvas.pen();
    if (!pen) return;
    cairo_set_source_rgb(pen, 0, 0, 0);
    cairo_set_line_width(pen, .6);
    cairo_move_to(pen, flow.x() + from, flow.y());
    cairo_line_to(pen, flow.x() + to, flow.y());
    cairo_stroke(pen);
  }

  void print_row(const Pictures& pictures, std::size_t from) const {
    constexpr double kBetween = 1.5 * kMm;
    const auto in_a_row = static_cast<std::size_t>(pictures.in_a_row);
    const double column = (kWidth + kBetween) / static_cast<double>(in_a_row) - kBetween;
    const std::size_t end = std::min(from + in_a_row, pictures.pictures.size());
    std::vector<Text> captions;
    double picture_height = 0, caption_height = 0;
    for (std::size_t i = from; i < end; ++i) {
      const auto& [caption, drawing] = pictures.pictures[i];
      picture_height = std::max(picture_height, height_of(drawing, width_of(drawing, column)));
      captions.emplace_back(flow.canvas, caption, Type{8.4}, column).centre();
      caption_height = std::max(caption_height, captions.back().height());
    }
    caption_height = std::min(caption_height, kMostCaption);
    flow.keep(caption_height + picture_height);
    for (std::size_t i = from; i < end; ++i) {
      const double x = flow.x() + static_cast<double>(i - from) * (column + kBetween);
      const Drawing& drawing = pictures.pictures[i].drawing;
      const double width = width_of(drawing, column);
      int line = 0;
      captions[i - from].draw_some(x, flow.y(), caption_height, line);
      draw(flow.canvas, drawing, x + (column - width) / 2, flow.y() + caption_height, width);
    }
    flow.advance(caption_height + picture_height + 1.5 * kMm);
  }

  static double width_of(const Drawing& drawing, double column) { return std::min(drawing.mm * kMm, column); }
};

}  // namespace

void print_text(Flow& flow, const Line& line, const Type& type, double indent, double width) {
  const Text text(flow.canvas, line, type, width - indent);
  int next = 0;
  while (true) {
    flow.advance(text.draw_some(flow.x() + indent, flow.y(), flow.room(), next));
    if (next >= text.lines()) return;
    flow.next_page();
  }
}

void print(Flow& flow, const Block& block) {
  std::visit(Printer{flow}, block);
}

}  // namespace tenth::pdf_page
