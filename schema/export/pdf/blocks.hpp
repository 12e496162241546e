#pragma once

#include "schema/export/paper/paper.hpp"
#include "schema/export/pdf/flow.hpp"
#include "schema/export/pdf/text.hpp"

namespace tenth::pdf_page {

void print(Flow& flow, const paper::Block& block);

/// A line of any length, broken where it is wider than from `indent` to `width`; it runs on to the next page where it
/// must.
void print_text(Flow& flow, const paper::Line& line, const Type& type, double indent = 0, double width = kWidth);

}  // namespace tenth::pdf_page
