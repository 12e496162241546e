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

/// How high the beginning of a part is that should stand on one page: all of it but long tables, and of these the
/// first lines.
double height_together(const paper::Paper& paper, const paper::Part& part) {
  constexpr double kFirstLines = 25 * kMm, kBegun = .01;  // not the top of a page, where white would be left out
  const Canvas canvas = Canvas::counting();
  Flow flow(canvas, paper, 0);
  flow.advance(kBegun);
  print_title(flow, part.title);
  for (const paper::Block& block : part.blocks) {
    if (is_long(block)) {
      flow.advance(kFirstLines);
      break;
    }
    pdf_page::print(flow, block);
  }
  const double last = flow.used();
  return flow.finish() > 1 ? Flow::kRoom + 1 : last;
}

void print_part(Flow& flow, const paper::Paper& paper, const paper::Part& part) {
  const double height = height_together(paper, part);
  if (height <= Flow::kRoom) flow.keep(height);
  print_title(flow, part.title);
  for (const paper::Block& block : part.blocks) pdf_page::print(flow, block);
}

void print_act(Flow& flow, const paper::Paper& paper, const paper::Act& act) {
  constexpr double kTitle = 18 * kMm;  // with the white above it
  const double first = act.parts.empty() ? 0 : height_together(paper, act.parts.front());
  if (first + kTitle <= Flow::kRoom) flow.keep(first + kTitle);
  flow.gap(8 * kMm);
  print_text(flow, {{act.title + "  ", paper::Face::bold}}, {15, true, 0});
  if (!act.what.empty()) print_text(flow, {{act.what}}, {8.8, false, .25});
  flow.advance(1.5 * kMm);
  for (const paper::Part& part : act.parts) print_part(flow, paper, part);
}

/// How many pages that makes. `pages` is written on each.
int print_paper(const Canvas& canvas, const paper::Paper& paper, int pages) {
  Flow flow(canvas, paper, pages);
  print_text(flow, {{paper.kind}}, {9, false, .25});
  print_text(flow, {{paper.title}}, {23, true, 0});
  print_text(flow, {{paper.subtitle}}, {12});
  flow.advance(3 * kMm);
  for (const paper::Block& block : paper.top) pdf_page::print(flow, block);
  for (const paper::Act& act : paper.acts) print_act(flow, paper, act);
  flow.gap(4 * kMm);
  print_text(flow, {{"Made by tenth " TENTH_VERSION "."}}, {8, false, .25});
  return flow.finish();
}

}  // namespace

std::string pdf(const paper::Paper& paper, paper::Sheet sheet) {
  const int pages = print_paper(Canvas::counting(), paper, 0);
  Canvas canvas(paper, sheet);
  print_paper(canvas, paper, pages);
  return canvas.finish();
}

}  // namespace tenth
