#pragma once

#include <string_view>

namespace tenth::html_page {

/// The page's own style sheet: black on white, made for A4 and Letter paper first; nothing depends on colour.
extern const std::string_view kStyle;

}  // namespace tenth::html_page
