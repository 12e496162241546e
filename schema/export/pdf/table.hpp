#pragma once

#include "schema/export/paper/paper.hpp"
#include "schema/export/pdf/flow.hpp"

namespace tenth::pdf_page {

/// A table, its head again on every page that it runs on to.
void print(Flow& flow, const paper::Table& table);

}  // namespace tenth::pdf_page
