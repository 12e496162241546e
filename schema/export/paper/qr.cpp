#include "schema/export/paper/qr.hpp"

#include <qrencode.h>

#include <cstddef>
#include <memory>
#include <stdexcept>

namespace tenth::paper {
namespace {

constexpr int kQuiet = 4;

struct Free {
  void operator()(QRcode* code) const { QRcode_free(code); }
};

bool is_dark(const QRcode& code, int row, int column) {
  return column < code.width && (code.data[row * code.width + column] & 1) != 0;
}

/// Dark modules of a row as boxes, each as long as can be.
void add_row(Shape& modules, const QRcode& code, int row) {
  for (int column = 0; column < code.width; ++column) {
    if (!is_dark(code, row, column)) continue;
    const int from = column;
    while (is_dark(code, row, column)) ++column;
    const Point corner{static_cast<double>(from + kQuiet), static_cast<double>(row + kQuiet)};
    modules.points.insert(modules.points.end(), {corner, {static_cast<double>(column + kQuiet), corner.y + 1}});
  }
}

}  // namespace

Drawing qr_code(const std::string& text) {
  const std::unique_ptr<QRcode, Free> code(QRcode_encodeString8bit(text.c_str(), 0, QR_ECLEVEL_M));
  if (!code) throw std::runtime_error("a text too long for a QR code");
  const double side = code->width + 2 * kQuiet;
  Shape modules{Shape::Kind::boxes, Ink::dark, {}};
  for (int row = 0; row < code->width; ++row) add_row(modules, *code, row);
  return {"qr", side, side, 30, {std::move(modules)}};
}

}  // namespace tenth::paper
