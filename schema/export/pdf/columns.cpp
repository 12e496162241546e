#include "schema/export/pdf/columns.hpp"

#include <algorithm>
#include <numeric>

namespace tenth::pdf_page {
namespace {

using paper::Cell;
using paper::Manner;
using paper::Table;

double wanted(const Canvas& canvas, const Cell& cell, const Type& type) {
  return cell.picture ? cell.picture->mm * kMm : Text(canvas, cell.line, type).width();
}

/// What each column would take where there were no bounds.
std::vector<double> wishes(const Canvas& canvas, const Table& table, const Type& type, double between) {
  constexpr double kToWriteIn = 15 * kMm;
  std::vector<double> widths;
  for (const paper::Column& column : table.columns) {
    const double head = Text(canvas, {{column.head}}, type).widest_word();
    widths.push_back(std::max(head, column.manner == Manner::hand ? kToWriteIn : 0));
  }
  for (const paper::Cells& row : table.rows)
    for (std::size_t i = 0; row.size() > 1 && i < row.size(); ++i)
      widths[i] = std::max(widths[i], wanted(canvas, row[i], type));
  for (double& width : widths) width += between;
  return widths;
}

double sum(const std::vector<double>& widths) {
  return std::accumulate(widths.begin(), widths.end(), 0.0);
}

/// The widest come down to one width, so that all fit.
void give_way(std::vector<double>& widths) {
  std::vector<double> sorted = widths;
  std::ranges::sort(sorted);
  double left = kWidth;
  double most = 0;
  for (std::size_t i = 0; i < sorted.size(); ++i) {
    most = left / static_cast<double>(sorted.size() - i);
    if (sorted[i] > most) break;
    left -= sorted[i];
  }
  for (double& width : widths) width = std::min(width, most);
}

void spread(std::vector<double>& widths, const Table& table) {
  const auto takes = [&](Manner manner) { return std::ranges::count(table.columns, manner, &paper::Column::manner); };
  Manner taker = Manner::hand;
  if (takes(taker) == 0) taker = Manner::note;
  const bool to_all = takes(taker) == 0;
  const double each = (kWidth - sum(widths)) /
                      static_cast<double>(to_all ? table.columns.size() : static_cast<std::size_t>(takes(taker)));
  for (std::size_t i = 0; i < widths.size(); ++i)
    if (to_all || table.columns[i].manner == taker) widths[i] += each;
}

}  // namespace

std::vector<double> column_widths(const Canvas& canvas, const Table& table, const Type& type, double between) {
  std::vector<double> widths = wishes(canvas, table, type, between);
  if (sum(widths) > kWidth)
    give_way(widths);
  else
    spread(widths, table);
  return widths;
}

}  // namespace tenth::pdf_page
