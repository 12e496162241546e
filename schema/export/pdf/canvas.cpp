#include "schema/export/pdf/canvas.hpp"

#include <cairo-pdf.h>
#include <pango/pangocairo.h>

#include <new>

#include "schema/export/pdf/picture.hpp"
#include "schema/json/escape.hpp"

namespace tenth::pdf_page {
namespace {

struct Size {
  double width, height;
};

Size size_of(paper::Sheet sheet) {
  return sheet == paper::Sheet::a4 ? Size{210 * kMm, 297 * kMm} : Size{8.5 * 72, 11.0 * 72};
}

cairo_status_t keep(void* bytes, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

/// Letters of one size and place wherever they are drawn.
Owned<cairo_font_options_t, cairo_font_options_destroy> unhinted() {
  Owned<cairo_font_options_t, cairo_font_options_destroy> options(cairo_font_options_create());
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  return options;
}

/// A PDF holds its own time; that of the ledger's head keeps the same ledger's files the same.
void describe(cairo_surface_t* surface, const paper::Paper& paper) {
  const auto set = [&](cairo_pdf_metadata_t what, const std::string& text) {
    cairo_pdf_surface_set_metadata(surface, what, text.c_str());
  };
  set(CAIRO_PDF_METADATA_TITLE, printable(valid_utf8(paper.title + " – " + paper.kind)));
  set(CAIRO_PDF_METADATA_CREATOR, "tenth " TENTH_VERSION);
  const std::string time = paper.as_of.substr(0, paper.as_of.find('.'));
  set(CAIRO_PDF_METADATA_CREATE_DATE, time.empty() ? "1970-01-01T00:00:00Z" : time + "Z");
}

}  // namespace

Canvas::Canvas() : fonts_(pango_cairo_font_map_new()), letters_(pango_font_map_create_context(fonts_.get())) {
  pango_cairo_font_map_set_resolution(PANGO_CAIRO_FONT_MAP(fonts_.get()), 72);
  pango_cairo_context_set_font_options(letters_.get(), unhinted().get());
  pango_context_set_round_glyph_positions(letters_.get(), FALSE);
  pango_context_set_language(letters_.get(), pango_language_from_string("en"));  // not the machine's
  pango_cairo_context_set_shape_renderer(letters_.get(), draw_sign, nullptr, nullptr);
}

Canvas::Canvas(const paper::Paper& paper, paper::Sheet sheet) : Canvas() {
  const Size size = size_of(sheet);
  left_ = (size.width - kWidth) / 2;
  top_ = (size.height - kHeight) / 2;
  bytes_ = std::make_unique<std::string>();
  surface_.reset(cairo_pdf_surface_create_for_stream(keep, bytes_.get(), size.width, size.height));
  describe(surface_.get(), paper);
  pen_.reset(cairo_create(surface_.get()));
}

Canvas Canvas::counting() {
  return {};
}

void Canvas::end_page() const {
  if (pen()) cairo_show_page(pen());
}

std::string Canvas::finish() {
  pen_.reset();
  cairo_surface_finish(surface_.get());
  if (cairo_surface_status(surface_.get()) != CAIRO_STATUS_SUCCESS) throw std::bad_alloc();  // memory is all that fails
  return std::move(*bytes_);
}

}  // namespace tenth::pdf_page
