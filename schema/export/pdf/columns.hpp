#pragma once

#include <vector>

#include "schema/export/paper/paper.hpp"
#include "schema/export/pdf/text.hpp"

namespace tenth::pdf_page {

/// The widths of a table's columns, together those of the page: each as wide as what stands in it, and where that is
/// too much the widest ones give way. What is left over goes where it is written by hand, else to notes, else to all.
std::vector<double> column_widths(const Canvas& canvas, const paper::Table& table, const Type& type, double between);

}  // namespace tenth::pdf_page
