#pragma once

#include <cairo.h>
#include <pango/pango.h>

#include <memory>
#include <string>

#include "schema/export/paper/paper.hpp"

namespace tenth::pdf_page {

/// Points of a millimetre; all lengths on a page are in points, from its upper left corner.
inline constexpr double kMm = 72 / 25.4;

template <auto release>
struct Release {
  template <class T>
  void operator()(T* object) const {
    release(object);
  }
};
template <class T, auto release>
using Owned = std::unique_ptr<T, Release<release>>;

/// The pages that are drawn on, in memory. One that only counts draws nothing and needs no size.
class Canvas {
 public:
  Canvas(const paper::Paper& paper, paper::Sheet sheet);
  static Canvas counting();

  cairo_t* pen() const { return pen_.get(); }  ///< null: only counting
  PangoContext* letters() const { return letters_.get(); }
  /// Where what fits both sizes of paper begins.
  double left() const { return left_; }
  double top() const { return top_; }

  void end_page() const;
  /// The whole file; nothing can be drawn afterwards.
  std::string finish();

 private:
  Canvas();
  double left_ = 0, top_ = 0;
  std::unique_ptr<std::string> bytes_;
  Owned<cairo_surface_t, cairo_surface_destroy> surface_;
  Owned<cairo_t, cairo_destroy> pen_;
  Owned<PangoFontMap, g_object_unref> fonts_;
  Owned<PangoContext, g_object_unref> letters_;
};

/// What is printed lies within this, centred: inside both A4 and Letter, with room for what printers leave white even
/// when one is printed on the other, unscaled.
inline constexpr double kWidth = 180 * kMm, kHeight = 252 * kMm;

}  // namespace tenth::pdf_page
