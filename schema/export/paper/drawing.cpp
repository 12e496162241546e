#include "schema/export/paper/drawing.hpp"

#include <array>

#include "rules/names.hpp"

namespace tenth::paper {
namespace {

constexpr Names<Ink, kInks> kNames{{"allowed", "limit", "inner", "outline", "touch", "beyond", "axis", "size", "level",
                                    "span", "mean", "target", "sign", "dashes", "solid", "cut", "dark"}};

constexpr double kNone = -1, kBlack = 0, kDark = .2, kGrey = .47, kPale = .89, kWhite = 1;

constexpr std::array<Look, kInks> kLooks{{
    {.fill = kPale, .stroke = kGrey, .width = .6},                 // allowed
    {.stroke = kGrey, .width = .8},                                // limit
    {.fill = kWhite, .stroke = kGrey, .width = .6},                // inner
    {.stroke = kBlack, .width = 1.5},                              // outline
    {.fill = kBlack},                                              // touch
    {.fill = kWhite, .stroke = kBlack, .width = 1.3},              // beyond
    {.fill = kDark, .height = 11},                                 // axis
    {.fill = kBlack, .height = 12.5, .bold = true},                // size
    {.fill = kBlack, .height = 12.5},                              // level
    {.fill = kBlack},                                              // span
    {.fill = kWhite, .stroke = kBlack, .width = 1.4},              // mean
    {.fill = kBlack},                                              // target
    {.fill = kNone, .stroke = kBlack, .width = 1.7},               // sign
    {.fill = kNone, .stroke = kBlack, .width = 1.7, .dash = 2.2},  // dashes
    {.fill = kBlack, .stroke = kBlack, .width = 1.7},              // solid
    {.fill = kNone, .stroke = kWhite, .width = 2.2},               // cut
    {.fill = kBlack},                                              // dark
}};

}  // namespace

const Look& look_of(Ink ink) {
  return kLooks[static_cast<std::size_t>(ink)];
}

std::string name(Ink ink) {
  return std::string(kNames.of(ink));
}

Shape circle(Ink ink, Point centre, double radius) {
  return {Shape::Kind::circle, ink, {centre}, radius};
}

Shape line(Ink ink, std::vector<Point> points) {
  return {Shape::Kind::line, ink, std::move(points)};
}

Shape area(Ink ink, std::vector<Point> points) {
  return {Shape::Kind::area, ink, std::move(points)};
}

Shape box(Ink ink, Point corner, Point opposite) {
  return {Shape::Kind::boxes, ink, {corner, opposite}};
}

Shape words(Ink ink, Point middle, double degrees, std::string text) {
  return {Shape::Kind::words, ink, {middle}, 0, degrees, std::move(text)};
}

}  // namespace tenth::paper
