#include "rules/spoken.hpp"

#include <algorithm>
#include <cstdint>
#include <vector>

#include "rules/words.hpp"

namespace tenth {
namespace {

constexpr std::int64_t kTenth_pm = 2'540'000;
constexpr std::int64_t kMicron_pm = 1'000'000;

std::size_t digit(char c) {
  return static_cast<std::size_t>(c - '0');
}

std::string joined(const std::vector<std::string>& parts) {
  std::string all;
  for (const std::string& part : parts) all += (all.empty() || part.empty() ? "" : " ") + part;
  return all;
}

std::string digits(std::string_view text, const NumberWords& words) {
  std::vector<std::string> all;
  for (const char c : text) all.push_back(words.small[digit(c)]);
  return joined(all);
}

/// "12.5": a number as it is written, read out.
std::string decimal(std::string_view text, const NumberWords& words) {
  const std::size_t point = text.find('.');
  const std::string whole = spoken_count(std::stoll(std::string(text.substr(0, point))), words);
  return point == std::string_view::npos ? whole : joined({whole, words.point, digits(text.substr(point + 1), words)});
}

/// A number of tenths of its unit: 15 is "one point five", 20 is "two".
std::string with_one_place(std::int64_t times_ten, const NumberWords& words) {
  std::string text = std::to_string(times_ten / 10);
  if (times_ten % 10 != 0) text += "." + std::to_string(times_ten % 10);
  return decimal(text, words);
}

/// Thou that follow whole inches: 5 "oh oh five", 27 "oh twenty-seven", 305 "three oh five", 310 "three ten".
std::string after_inches(std::size_t thou, const NumberWords& words) {
  const std::size_t hundreds = thou / 100, rest = thou % 100;
  const std::string first = hundreds == 0 ? words.oh : words.small[hundreds];
  if (rest == 0) return joined({first, words.hundred});
  return rest < 10 ? joined({first, words.oh, words.small[rest]}) : joined({first, words.small[rest]});
}

/// `text`: whole inches, and thousandths, tenths and perhaps finer behind the point.
std::string by_thou(const std::string& text, const NumberWords& words) {
  const std::size_t point = text.find('.');
  const std::int64_t whole = std::stoll(text.substr(0, point));
  const auto thou = static_cast<std::size_t>(std::stoi(text.substr(point + 1, 3)));
  const std::string tenths = text.substr(point + 4, 1), finer = text.substr(point + 5);
  const bool some = tenths != "0" || !finer.empty();
  std::vector<std::string> parts;
  if (whole != 0) parts = {spoken_count(whole, words), thou == 0 ? words.even : after_inches(thou, words)};
  if (whole == 0 && thou != 0) parts = {spoken_count(static_cast<std::int64_t>(thou), words), words.thou};
  if (!some) return parts.empty() ? words.small[0] : joined(parts);
  if (!parts.empty()) parts.push_back(words.also);
  parts.push_back(decimal(finer.empty() ? tenths : tenths + "." + finer, words));
  parts.push_back(tenths == "1" && finer.empty() ? words.tenth : words.tenths);
  return joined(parts);
}

}  // namespace

std::string spoken_count(std::int64_t number, const NumberWords& words) {
  if (number < 0) return joined({words.minus, spoken_count(-number, words)});
  if (number < 100) return words.small[static_cast<std::size_t>(number)];
  if (number > 999) return digits(std::to_string(number), words);
  const std::string hundreds = words.hundreds[static_cast<std::size_t>(number / 100 - 1)];
  return number % 100 == 0 ? hundreds : hundreds + words.join + words.small[static_cast<std::size_t>(number % 100)];
}

std::string spoken_size(Length size, Unit unit, const NumberWords& words) {
  const std::string text = decimals(size.magnitude(), unit);
  const bool trade = unit == Unit::in && words.inch_by_thou;
  const std::string said = trade ? by_thou(text, words) : decimal(text, words);
  return size < Length() ? joined({words.minus, said}) : said;
}

std::string spoken_distance(Length distance, Unit unit, const NumberWords& words) {
  const Length size = distance.magnitude();
  if (unit == Unit::in) {
    const std::int64_t times_ten = divide_rounded(Wide{size.pm()} * 10, kTenth_pm);
    const std::int64_t thou = times_ten / 100, rest = times_ten % 100;
    if (thou >= 1000) return joined({decimal(decimals(size, unit), words), words.in});
    std::vector<std::string> parts;
    if (thou != 0) parts = {spoken_count(thou, words), words.thou};
    if (rest != 0 && thou != 0) parts.push_back(words.also);
    if (rest != 0 || thou == 0)
      parts.insert(parts.end(), {with_one_place(rest, words), rest == 10 ? words.tenth : words.tenths});
    return joined(parts);
  }
  if (size >= Length::from_um(100)) return joined({decimal(decimals(size, unit), words), words.mm});
  const std::int64_t times_ten = divide_rounded(Wide{size.pm()} * 10, kMicron_pm);
  return joined({with_one_place(times_ten, words), times_ten == 10 ? words.micron : words.microns});
}

}  // namespace tenth
