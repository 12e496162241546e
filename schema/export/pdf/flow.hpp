#pragma once

#include <string>

#include "schema/export/paper/paper.hpp"
#include "schema/export/pdf/canvas.hpp"

namespace tenth::pdf_page {

/// Where the next thing goes: down the page, and on to the next. Every page bears whose it is, the head of the chain,
/// and which of how many it is.
class Flow {
 public:
  /// `pages` is how many there will be in all, where that is known.
  Flow(const Canvas& drawn_on, const paper::Paper& paper, int pages, paper::PageTold told = {})
      : canvas(drawn_on), paper_(&paper), pages_(pages), told_(std::move(told)) {}

  double x() const { return canvas.left(); }
  double y() const { return canvas.top() + used_; }
  double room() const { return kRoom - used_; }
  int page() const { return page_; }
  /// How much stands above on this page; 0: nothing.
  double used() const { return used_; }

  void advance(double height) { used_ += height; }
  /// White between two things; none where a page begins.
  void gap(double height) { used_ += used_ > 0 ? height : 0; }
  /// What is so high stays whole: on this page if there is room, else on the next.
  void keep(double height);
  void next_page();
  /// Ends the last page: how many there were.
  int finish();

  /// A page is so high, less what every page bears.
  static constexpr double kRoom = kHeight - 7 * kMm;
  const Canvas& canvas;

 private:
  void end_page() const;
  void write_foot() const;
  const paper::Paper* paper_;
  int page_ = 1, pages_;
  double used_ = 0;
  paper::PageTold told_;
};

}  // namespace tenth::pdf_page
