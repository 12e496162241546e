#pragma once

#include <string>

#include "schema/export/paper/paper.hpp"

namespace tenth::html_page {

std::string markup_of(const paper::Line& line);
std::string markup_of(const paper::Block& block);

}  // namespace tenth::html_page
