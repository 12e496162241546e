#include "drivers/line/line.hpp"

#include <re2/re2.h>

namespace tenth::drivers {
namespace {

constexpr std::size_t kMost = 64;
constexpr const char* kPattern =
    " *(?P<number>[+-]? *[0-9]{1,4}(?:[.,][0-9]{1,6})?(?:[eE][+-]?[0-9]{1,2})?) *(?P<unit>mm|in)?";

const RE2& pattern() {
  static const RE2 compiled(kPattern);
  return compiled;
}

/// The number that `rules` reads: it knows commas and exponents, but no blanks after a sign.
std::string without_blanks(std::string number) {
  std::erase(number, ' ');
  return number;
}

std::unique_ptr<Decoder> make(std::optional<Unit> unit) {
  return std::make_unique<FrameDecoder>(Framing{.line_feed_ends = true, .most = kMost},
                                        [unit](std::string_view frame) { return parse_line(frame, unit); });
}

}  // namespace

Parsed parse_line(std::string_view frame, std::optional<Unit> unit) {
  std::string number, named;
  if (!RE2::FullMatch(re2::StringPiece(frame.data(), frame.size()), pattern(), &number, &named)) {
    return bad_frame("the line is not one number with at most a unit");
  }
  if (!named.empty()) unit = named == "in" ? Unit::in : Unit::mm;
  if (!unit) return bad_frame("the line names no unit and the gauge has none");
  const auto value = length_from_decimal(without_blanks(number), *unit);
  if (!value) return bad_frame(value.error().message);
  return Measurement{
      .raw = {}, .text = std::move(number), .value = *value, .unit = *unit, .unit_in_frame = !named.empty()};
}

Format line_format() {
  return Format{.name = "line",
                .title = "Decimal text line",
                .definition = std::string(R"(format = "tenth-profile-1"
title = "Decimal text line"
speaks = "line"
[frame]
end = ["\r\n", "\r", "\n"]
most = 64
[value]
pattern = ')") + kPattern + "'\nunits = { mm = \"mm\", in = \"in\" }\n",
                .unit_in_frame = false,
                .whole_by_length = false,
                .make = make};
}

}  // namespace tenth::drivers
