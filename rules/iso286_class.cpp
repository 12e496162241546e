#include "rules/iso286_class.hpp"

#include <algorithm>
#include <optional>

#include "rules/nearest.hpp"

namespace tenth {
namespace {

bool is_capital(char c) {
  return c >= 'A' && c <= 'Z';
}

bool is_letter(char c) {
  return is_capital(c) || (c >= 'a' && c <= 'z');
}

bool is_digit(char c) {
  return c >= '0' && c <= '9';
}

/// One or two digits, without a zero before them but for 01.
std::optional<int> grade_of(std::string_view text) {
  if (text == "01") return -1;
  if (text.empty() || text.size() > 2 || !std::ranges::all_of(text, is_digit)) return std::nullopt;
  if (text.size() == 2 && text.front() == '0') return std::nullopt;
  return std::stoi(std::string(text));
}

/// One or two letters of one case.
bool are_letters_of_a_class(std::string_view text) {
  const auto capitals = std::ranges::count_if(text, is_capital);
  const auto size = std::ssize(text);
  return size >= 1 && size <= 2 && (capitals == 0 || capitals == size);
}

}  // namespace

Result<ToleranceClass> parse_tolerance_class(std::string_view size) {
  const auto begin = std::find_if(size.begin(), size.end(), is_letter);
  const auto end = std::find_if_not(begin, size.end(), is_letter);
  std::string_view number(size.begin(), begin);
  if (number.ends_with(' ')) number.remove_suffix(1);
  const auto nominal = length_from_decimal(number, Unit::mm);
  const std::string_view letters(begin, end);
  const auto grade = grade_of({end, size.end()});
  if (!nominal || !are_letters_of_a_class(letters) || !grade)
    return refuse("tolerance_class", quoted(size) + " is no ISO 286 class",
                  "write a size in mm and a class, such as 83 H7 or 60 js6");
  ToleranceClass c{*nominal, std::string(letters), std::string(letters), is_capital(letters.front()), *grade};
  if (c.hole)
    for (char& letter : c.letters) letter = static_cast<char>(letter - 'A' + 'a');
  return c;
}

}  // namespace tenth
