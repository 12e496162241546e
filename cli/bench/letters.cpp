#include "cli/bench/letters.hpp"

#include <array>
#include <cctype>

namespace tenth::cli {
namespace {

struct Letter {
  char name;
  std::array<std::string_view, kLetterRows> rows;
};

constexpr std::array kLetters = {Letter{' ', {"  ", "  ", "  ", "  ", "  "}},
                                 Letter{'.', {"  ", "  ", "  ", "##", "##"}},
                                 Letter{'-', {"    ", "    ", "####", "    ", "    "}},
                                 Letter{'+', {"     ", "  #  ", "#####", "  #  ", "     "}},
                                 Letter{'/', {"   #", "  ##", " ## ", "##  ", "#   "}},
                                 Letter{'0', {" ### ", "#   #", "#   #", "#   #", " ### "}},
                                 Letter{'1', {" # ", "## ", " # ", " # ", "###"}},
                                 Letter{'2', {"#### ", "    #", " ### ", "#    ", "#####"}},
                                 Letter{'3', {"#### ", "    #", " ### ", "    #", "#### "}},
                                 Letter{'4', {"#   #", "#   #", "#####", "    #", "    #"}},
                                 Letter{'5', {"#####", "#    ", "#### ", "    #", "#### "}},
                                 Letter{'6', {" ### ", "#    ", "#### ", "#   #", " ### "}},
                                 Letter{'7', {"#####", "    #", "   # ", "  #  ", "  #  "}},
                                 Letter{'8', {" ### ", "#   #", " ### ", "#   #", " ### "}},
                                 Letter{'9', {" ### ", "#   #", " ####", "    #", " ### "}},
                                 Letter{'A', {" ## ", "#  #", "####", "#  #", "#  #"}},
                                 Letter{'B', {"### ", "#  #", "### ", "#  #", "### "}},
                                 Letter{'C', {" ###", "#   ", "#   ", "#   ", " ###"}},
                                 Letter{'D', {"### ", "#  #", "#  #", "#  #", "### "}},
                                 Letter{'E', {"####", "#   ", "### ", "#   ", "####"}},
                                 Letter{'F', {"####", "#   ", "### ", "#   ", "#   "}},
                                 Letter{'G', {" ###", "#   ", "# ##", "#  #", " ###"}},
                                 Letter{'H', {"#  #", "#  #", "####", "#  #", "#  #"}},
                                 Letter{'I', {"#", "#", "#", "#", "#"}},
                                 Letter{'J', {"  ##", "   #", "   #", "#  #", " ## "}},
                                 Letter{'K', {"#  #", "# # ", "##  ", "# # ", "#  #"}},
                                 Letter{'L', {"#   ", "#   ", "#   ", "#   ", "####"}},
                                 Letter{'M', {"#   #", "## ##", "# # #", "#   #", "#   #"}},
                                 Letter{'N', {"#   #", "##  #", "# # #", "#  ##", "#   #"}},
                                 Letter{'O', {" ## ", "#  #", "#  #", "#  #", " ## "}},
                                 Letter{'P', {"### ", "#  #", "### ", "#   ", "#   "}},
                                 Letter{'Q', {" ## ", "#  #", "#  #", "# ##", " ###"}},
                                 Letter{'R', {"### ", "#  #", "### ", "# # ", "#  #"}},
                                 Letter{'S', {" ###", "#   ", " ## ", "   #", "### "}},
                                 Letter{'T', {"#####", "  #  ", "  #  ", "  #  ", "  #  "}},
                                 Letter{'U', {"#  #", "#  #", "#  #", "#  #", " ## "}},
                                 Letter{'V', {"#   #", "#   #", " # # ", " # # ", "  #  "}},
                                 Letter{'W', {"#   #", "#   #", "# # #", "## ##", "#   #"}},
                                 Letter{'X', {"#  #", "#  #", " ## ", "#  #", "#  #"}},
                                 Letter{'Y', {"#   #", " # # ", "  #  ", "  #  ", "  #  "}},
                                 Letter{'Z', {"####", "   #", " ## ", "#   ", "####"}}};

const Letter* letter(char c) {
  const char capital = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  for (const Letter& each : kLetters)
    if (each.name == capital) return &each;
  return nullptr;
}

}  // namespace

std::vector<std::string> big_letters(std::string_view text) {
  std::vector<std::string> rows(kLetterRows);
  for (const char c : text) {
    const Letter* const drawn = letter(c);
    if (drawn == nullptr) return {};
    for (std::size_t row = 0; row < rows.size(); ++row)
      rows[row].append(rows[row].empty() ? "" : " ").append(drawn->rows[row]);
  }
  return rows;
}

}  // namespace tenth::cli
