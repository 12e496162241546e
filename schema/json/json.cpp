#include "schema/json/json.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <iterator>
#include <stdexcept>
#include <vector>

#include "schema/json/utf8.hpp"

namespace tenth {
namespace {

constexpr std::int64_t kMostExactInteger = (std::int64_t{1} << 53) - 1;

void write_escaped(std::string& out, char c) {
  switch (c) {
    case '"':
      out += "\\\"";
      return;
    case '\\':
      out += "\\\\";
      return;
    case '\b':
      out += "\\b";
      return;
    case '\t':
      out += "\\t";
      return;
    case '\n':
      out += "\\n";
      return;
    case '\f':
      out += "\\f";
      return;
    case '\r':
      out += "\\r";
      return;
    default:
      break;
  }
  constexpr std::string_view kDigits = "0123456789abcdef";
  out += "\\u00";
  out += kDigits[static_cast<unsigned char>(c) >> 4];
  out += kDigits[static_cast<unsigned char>(c) & 0xF];
}

void write_text(std::string& out, std::string_view text) {
  out += '"';
  while (!text.empty()) {
    const std::size_t length = utf8_character(text);
    if (length == 0) throw std::invalid_argument("a text for JSON is not UTF-8");
    if (static_cast<unsigned char>(text[0]) < 0x20 || text[0] == '"' || text[0] == '\\') {
      write_escaped(out, text[0]);
    } else {
      out += text.substr(0, length);
    }
    text.remove_prefix(length);
  }
  out += '"';
}

/// Number::toString of ECMA-262 from the shortest digits d1 d2 ... and the place of the point: 0.d1d2... x 10^point.
void write_digits(std::string& out, std::string_view digits, int point) {
  const int count = static_cast<int>(digits.size());
  if (point > 21 || point <= -6) {
    out += digits[0];
    if (count > 1) out.append(".").append(digits.substr(1));
    out.append(point > 0 ? "e+" : "e").append(std::to_string(point - 1));
  } else if (point <= 0) {
    out.append("0.").append(static_cast<std::size_t>(-point), '0').append(digits);
  } else if (point >= count) {
    out.append(digits).append(static_cast<std::size_t>(point - count), '0');
  } else {
    const auto whole = static_cast<std::size_t>(point);
    out.append(digits.substr(0, whole)).append(".").append(digits.substr(whole));
  }
}

void write_number(std::string& out, double number) {
  if (!std::isfinite(number)) throw std::invalid_argument("JSON has no number for infinity or NaN");
  if (number == 0) {
    out += '0';  // minus zero too
    return;
  }
  if (number < 0) out += '-';
  char buffer[32];  // d.ddde-ddd: at most 17 digits and a three-figure exponent
  const auto end =
      std::to_chars(std::begin(buffer), std::end(buffer), std::fabs(number), std::chars_format::scientific);
  std::string digits(buffer, end.ptr);
  const std::size_t e = digits.find('e');
  const int exponent = std::stoi(digits.substr(e + 1));
  digits.erase(e);
  if (digits.size() > 1) digits.erase(1, 1);  // the point
  write_digits(out, digits, exponent + 1);
}

/// Beyond 2^53 - 1 a JSON number is the binary64 that it rounds to.
template <class Integer>
void write_integer(std::string& out, Integer number) {
  const bool exact =
      std::cmp_less_equal(number, kMostExactInteger) && std::cmp_greater_equal(number, -kMostExactInteger);
  if (exact) {
    out += std::to_string(number);
  } else {
    write_number(out, static_cast<double>(number));
  }
}

/// UTF-8 bytes sort as code points; as UTF-16, what lies past U+FFFF (lead bytes F0-F4) becomes surrogates and so comes
/// before U+E000-U+FFFF (lead bytes EE and EF).
bool before_in_utf16(std::string_view a, std::string_view b) {
  const auto rank = [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte == 0xEE || byte == 0xEF ? byte + 0x10 : byte;
  };
  return std::lexicographical_compare(a.begin(), a.end(), b.begin(), b.end(),
                                      [&](char x, char y) { return rank(x) < rank(y); });
}

void write(std::string& out, const Json& value);

void write_object(std::string& out, const Json& object) {
  std::vector<Json::const_iterator> members;
  members.reserve(object.size());
  for (auto member = object.begin(); member != object.end(); ++member) members.push_back(member);
  std::sort(members.begin(), members.end(),
            [](const auto& a, const auto& b) { return before_in_utf16(a.key(), b.key()); });
  char separator = '{';
  for (const auto& member : members) {
    out += separator;
    write_text(out, member.key());
    out += ':';
    write(out, member.value());
    separator = ',';
  }
  out += members.empty() ? "{}" : "}";
}

void write_array(std::string& out, const Json& array) {
  char separator = '[';
  for (const Json& value : array) {
    out += separator;
    write(out, value);
    separator = ',';
  }
  out += array.empty() ? "[]" : "]";
}

void write(std::string& out, const Json& value) {
  switch (value.type()) {
    case Json::value_t::null:
      out += "null";
      return;
    case Json::value_t::boolean:
      out += value.get<bool>() ? "true" : "false";
      return;
    case Json::value_t::number_integer:
      write_integer(out, value.get<std::int64_t>());
      return;
    case Json::value_t::number_unsigned:
      write_integer(out, value.get<std::uint64_t>());
      return;
    case Json::value_t::number_float:
      write_number(out, value.get<double>());
      return;
    case Json::value_t::string:
      write_text(out, value.get_ref<const std::string&>());
      return;
    case Json::value_t::array:
      write_array(out, value);
      return;
    case Json::value_t::object:
      write_object(out, value);
      return;
    case Json::value_t::binary:
    case Json::value_t::discarded:
      break;
  }
  throw std::invalid_argument("JSON has no such value");
}

}  // namespace

std::string canonical(const Json& value) {
  std::string out;
  write(out, value);
  return out;
}

// A decimal of at most 15 digits, and 100 m in picometres has 15, comes back from the nearest binary64 as it was.
Json mm(Length length) {
  return static_cast<double>(length.pm()) / 1e9;
}
Json mm(const std::optional<Length>& length) {
  return length ? mm(*length) : Json(nullptr);
}
Json pm(Length length) {
  return length.pm();
}
Json pm(const std::optional<Length>& length) {
  return length ? pm(*length) : Json(nullptr);
}

Length length_from_mm(const Json& number) {
  return Length::from_pm(std::llround(number.get<double>() * 1e9));
}

}  // namespace tenth
