#include "schema/export/paper/paper.hpp"

#include <algorithm>

namespace tenth::paper {
namespace {

Sign sign_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::in:
      return Sign::in;
    case Verdict::doubtful:
      return Sign::doubtful;
    case Verdict::incomplete:
      return Sign::incomplete;
    case Verdict::out:
      return Sign::out;
  }
  return Sign::out;
}

std::vector<Shape> shapes_of(Sign sign) {
  switch (sign) {
    case Sign::in:
      return {circle(Ink::sign, {8, 8}, 7), line(Ink::sign, {{4.5, 8.2}, {7, 10.8}, {11.5, 5.4}})};
    case Sign::doubtful:
      return {area(Ink::sign, {{8, 1.2}, {15.2, 14.4}, {.8, 14.4}}), line(Ink::sign, {{8, 6}, {8, 10}}),
              line(Ink::sign, {{8, 11.6}, {8, 12.8}})};
    case Sign::incomplete:
      return {area(Ink::dashes, {{1.5, 1.5}, {14.5, 1.5}, {14.5, 14.5}, {1.5, 14.5}}),
              line(Ink::sign, {{4.4, 8}, {5.2, 8}}), line(Ink::sign, {{7.6, 8}, {8.4, 8}}),
              line(Ink::sign, {{10.8, 8}, {11.6, 8}})};
    case Sign::out:
      return {area(Ink::solid, {{5, .8}, {11, .8}, {15.2, 5}, {15.2, 11}, {11, 15.2}, {5, 15.2}, {.8, 11}, {.8, 5}}),
              line(Ink::cut, {{5, 5}, {11, 11}}), line(Ink::cut, {{11, 5}, {5, 11}})};
    case Sign::box:
      return {area(Ink::sign, {{1, 1}, {15, 1}, {15, 15}, {1, 15}})};
  }
  return {};
}

}  // namespace

Drawing drawing_of(Sign sign) {
  return {"sign", 16, 16, 0, shapes_of(sign)};
}

Piece mark(const std::optional<Verdict>& verdict) {
  if (!verdict) return {"not judged"};
  return {std::string(name(*verdict)), Face::bold, sign_of(*verdict)};
}

bool is_empty(const Line& line) {
  return std::ranges::all_of(line, [](const Piece& piece) { return piece.text.empty() && !piece.sign; });
}

Paragraph said(std::string sentence, Tone tone) {
  return {{{std::move(sentence)}}, tone};
}

}  // namespace tenth::paper
