#pragma once

#include <string>

#include "schema/export/paper/drawing.hpp"

namespace tenth::html_page {

/// A drawing as markup; how its inks look stands in the style sheet (`ink_styles`).
std::string svg(const paper::Drawing& drawing);

/// The rules of the style sheet for all inks.
std::string ink_styles();

}  // namespace tenth::html_page
