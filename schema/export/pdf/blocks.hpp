#pragma once

#include "schema/export/paper/paper.hpp"
#include "schema/export/pdf/flow.hpp"

namespace tenth::pdf_page {

void print(Flow& flow, const paper::Block& block);

}  // namespace tenth::pdf_page
