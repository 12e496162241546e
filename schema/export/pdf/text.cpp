#include "schema/export/pdf/text.hpp"

#include <pango/pangocairo.h>

#include <cstdint>

#include "schema/json/escape.hpp"

namespace tenth::pdf_page {
namespace {

using paper::Face;
using paper::Piece;
using paper::Sign;

constexpr const char* kFamily = "Liberation Sans, DejaVu Sans, Sans";
constexpr const char* kTyped = "Liberation Mono, DejaVu Sans Mono, Monospace";
constexpr const char* kInstead = "\xEF\xBF\xBC\xE2\x81\xA0";  // an object, and no break between it and its word

int units(double points) {
  return static_cast<int>(points * PANGO_SCALE + .5);
}

double points(int units) {
  return static_cast<double>(units) / PANGO_SCALE;
}

/// The text of a line and what Pango is told of its stretches.
struct Stretches {
  std::string text;
  Owned<PangoAttrList, pango_attr_list_unref> attributes{pango_attr_list_new()};

  void say(PangoAttribute* attribute, std::size_t from) const {
    attribute->start_index = static_cast<guint>(from);
    attribute->end_index = static_cast<guint>(text.size());
    pango_attr_list_insert(attributes.get(), attribute);
  }

  void add_sign(Sign sign, double size) {
    const std::size_t from = text.size();
    text += kInstead;
    PangoRectangle ink{0, -units(size), units(size), units(size)}, logical = ink;
    logical.width = units(size * 1.3);
    logical.y = -units(size * .8);  // no higher than letters, so that the line keeps its height
    logical.height = -logical.y;
    auto* const data = reinterpret_cast<gpointer>(
        static_cast<std::intptr_t>(sign));  // NOLINT(performance-no-int-to-ptr): a number for `draw_sign`
    PangoAttribute* shape = pango_attr_shape_new_with_data(&ink, &logical, data, nullptr, nullptr);
    say(shape, from);
    shape->end_index = static_cast<guint>(from + 3);  // the object alone
  }

  void add(const Piece& piece, const Type& type) {
    if (piece.sign) add_sign(*piece.sign, type.size * 1.1);
    const std::size_t from = text.size();
    text += printable(valid_utf8(piece.text));
    if (piece.face == Face::bold) say(pango_attr_weight_new(PANGO_WEIGHT_BOLD), from);
    if (piece.face == Face::typed) say(pango_attr_family_new(kTyped), from);
  }
};

Stretches stretches_of(const paper::Line& line, const Type& type) {
  Stretches all;
  for (const Piece& piece : line) all.add(piece, type);
  all.say(pango_attr_insert_hyphens_new(FALSE), 0);    // a hyphen within a number would be another number
  all.say(pango_attr_font_features_new("liga 0"), 0);  // letters that are copied are those that were written
  return all;
}

}  // namespace

Text::Text(const Canvas& canvas, const paper::Line& line, const Type& type, std::optional<double> width)
    : canvas_(&canvas), grey_(type.grey), layout_(pango_layout_new(canvas.letters())) {
  const Owned<PangoFontDescription, pango_font_description_free> font(pango_font_description_from_string(kFamily));
  pango_font_description_set_absolute_size(font.get(), type.size * PANGO_SCALE);
  if (type.bold) pango_font_description_set_weight(font.get(), PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description(layout_.get(), font.get());
  const Stretches stretches = stretches_of(line, type);
  pango_layout_set_text(layout_.get(), stretches.text.c_str(), static_cast<int>(stretches.text.size()));
  pango_layout_set_attributes(layout_.get(), stretches.attributes.get());
  pango_layout_set_single_paragraph_mode(layout_.get(), TRUE);
  pango_layout_set_auto_dir(layout_.get(), FALSE);
  if (width) break_at(*width);
}

void Text::break_at(double width) {
  pango_layout_set_wrap(layout_.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_width(layout_.get(), units(width));
}

void Text::centre() {
  pango_layout_set_alignment(layout_.get(), PANGO_ALIGN_CENTER);
}

void Text::cut_to(double most) {
  if (width() <= most) return;
  pango_layout_set_ellipsize(layout_.get(), PANGO_ELLIPSIZE_END);
  pango_layout_set_width(layout_.get(), units(most));
}

double Text::width() const {
  PangoRectangle logical;
  pango_layout_get_extents(layout_.get(), nullptr, &logical);
  return points(logical.width);
}

double Text::widest_word() const {
  const Owned<PangoLayout, g_object_unref> words(pango_layout_copy(layout_.get()));
  pango_layout_set_wrap(words.get(), PANGO_WRAP_WORD);
  pango_layout_set_width(words.get(), 0);
  PangoRectangle logical;
  pango_layout_get_extents(words.get(), nullptr, &logical);
  return points(logical.width);
}

double Text::height() const {
  PangoRectangle logical;
  pango_layout_get_extents(layout_.get(), nullptr, &logical);
  return points(logical.height);
}

int Text::lines() const {
  return pango_layout_get_line_count(layout_.get());
}

void Text::draw(double x, double y) const {
  int line = 0;
  draw_some(x, y, height() + 1, line);
}

double Text::draw_some(double x, double y, double room, int& line) const {
  const Owned<PangoLayoutIter, pango_layout_iter_free> at(pango_layout_get_iter(layout_.get()));
  double high = 0;
  for (int i = 0; i < lines(); ++i, pango_layout_iter_next_line(at.get())) {
    if (i < line) continue;
    PangoRectangle logical;
    pango_layout_iter_get_line_extents(at.get(), nullptr, &logical);
    if (high + points(logical.height) > room) break;
    if (cairo_t* pen = canvas_->pen()) {
      const double baseline = points(pango_layout_iter_get_baseline(at.get()) - logical.y);
      cairo_set_source_rgb(pen, grey_, grey_, grey_);
      cairo_move_to(pen, x + points(logical.x), y + high + baseline);
      pango_cairo_show_layout_line(pen, pango_layout_iter_get_line_readonly(at.get()));
    }
    high += points(logical.height);
    ++line;
  }
  return high;
}

}  // namespace tenth::pdf_page
