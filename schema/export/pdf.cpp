#include <algorithm>

#include "schema/export/exports.hpp"
#include "schema/export/pdf/blocks.hpp"

namespace tenth {
namespace {

using pdf_page::Canvas;
using pdf_page::Flow;
using pdf_page::kMm;
using pdf_page::print_text;

void print_title(Flow& flow, const std::string& title) {
  if (title.empty()) return;
  flow.gap(4.5 * kMm);
  print_text(flow, {{title}}, {11.5, true, 0});
}

bool is_long(const paper::Block& block) {
  const auto* const table = std::get_if<paper::Table>(&block);
  return table != nullptr && table->density != paper::Density::figures;
}

/// A paper on its way to a canvas; `counting` is where heights are found out.
struct Printer {
  const paper::Paper& paper;
  const Canvas& counting;
  Flow& flow;

  /// How high the beginning of a part is that should stand on one page: all of it but long tables, and of these the
  /// first lines.
  double height_together(const paper::Part& part) const {
    constexpr double kFirstLines = 25 * kMm, kBegun = .01;  // not the top of a page, where white would be left out
    Flow trial(counting, paper, 0);
    trial.advance(kBegun);
    print_title(trial, part.title);
    for (const paper::Block& block : part.blocks) {
      if (is_long(block)) {
        trial.advance(kFirstLines);
        break;
      }
      pdf_page::print(trial, block);
    }
    const double last = trial.used();
    return trial.finish() > 1 ? Flow::kRoom + 1 : last;
  }

  void print_part(const paper::Part& part) const {
    const double height = height_together(part);
    if (height <= Flow::kRoom) flow.keep(height);
    print_title(flow, part.title);
    for (const paper::Block& block : part.blocks) pdf_page::print(flow, block);
  }

  void print_act(const paper::Act& act) const {
    constexpr double kTitle = 18 * kMm;  // with the white above it
    const double first = act.parts.empty() ? 0 : height_together(act.parts.front());
    if (first + kTitle <= Flow::kRoom) flow.keep(first + kTitle);
    flow.gap(8 * kMm);
    print_text(flow, {{act.title}}, {15, true, 0});
    if (!act.what.empty()) print_text(flow, {{act.what}}, {8.8, false, .25});
    flow.advance(1.5 * kMm);
    for (const paper::Part& part : act.parts) print_part(part);
  }

  /// How many pages that makes.
  int print() const {
    print_text(flow, {{paper.kind}}, {9, false, .25});
    print_text(flow, {{paper.title}}, {23, true, 0});
    print_text(flow, {{paper.subtitle}}, {12});
    flow.advance(3 * kMm);
    for (const paper::Block& block : paper.top) pdf_page::print(flow, block);
    for (const paper::Act& act : paper.acts) print_act(act);
    flow.gap(4 * kMm);
    print_text(flow, {{"Made by tenth " TENTH_VERSION "."}}, {8, false, .25});
    return flow.finish();
  }
};

}  // namespace

std::string pdf(const paper::Paper& paper, paper::Sheet sheet, const paper::PageTold& told) {
  const Canvas counting = Canvas::counting();
  Flow count(counting, paper, 0);
  const int pages = Printer{paper, counting, count}.print();
  Canvas canvas(paper, sheet);
  Flow flow(canvas, paper, pages, told);
  Printer{paper, counting, flow}.print();
  return canvas.finish();
}

}  // namespace tenth
