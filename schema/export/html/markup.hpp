#pragma once

#include <string>
#include <string_view>

namespace tenth::html_page {

/// Text as it may stand in an element or in a quoted attribute; control characters as \xHH.
std::string escaped(std::string_view text);

/// Text as it may stand in a quoted string of a style sheet: all but letters, digits and blanks as hex.
std::string styled(std::string_view text);

/// `<opening>inner</name>`, where `opening` is the name with its attributes. `inner` is markup.
std::string element(std::string_view opening, std::string_view inner);

/// A number with at most two places: "3.6", "150".
std::string number(double value);

}  // namespace tenth::html_page
