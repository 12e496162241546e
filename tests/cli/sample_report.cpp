#include "tests/cli/sample_report.hpp"

#include <string>

namespace tenth::cli {

Json size_of(const std::string& feature, int index, double mean, double min, double max, const char* verdict) {
  return {{"feature", feature},
          {"index", index},
          {"label", std::to_string(index)},
          {"stage", "as found"},
          {"carried", false},
          {"mean_mm", mean},
          {"min_mm", min},
          {"max_mm", max},
          {"out_of_round_mm", nullptr},
          {"out_of_round_by", "same_level"},
          {"taper_mm", nullptr},
          {"taper_by", "along_axis"},
          {"readings", 6},
          {"missing", 0},
          {"uncertainty_mm", nullptr},
          {"verdict", verdict},
          {"reasons", Json::array()}};
}

Json fit_of(const std::string& fit, int index, const Json& min, const Json& max, const char* verdict) {
  return {{"fit", fit},
          {"index", index},
          {"outside_index", index},
          {"label", std::to_string(index)},
          {"outside_label", std::to_string(index)},
          {"min_mm", min},
          {"mean_mm", nullptr},
          {"max_mm", max},
          {"lower_mm", 0.035},
          {"upper_mm", 0.06},
          {"target_mm", 0.05},
          {"uncertainty_mm", nullptr},
          {"verdict", verdict},
          {"reasons", Json::array()}};
}

Json reason(const char* what, double value, double limit, const char* side, const char* verdict) {
  return {{"what", what}, {"value_mm", value}, {"limit_mm", limit}, {"side", side}, {"verdict", verdict}};
}

Json sample_report() {
  auto round = size_of("bore", 1, 83.0123, 83.01, 83.015, "in");
  round["out_of_round_mm"] = 0.0031;
  round["taper_mm"] = 0.0042;
  auto wide = size_of("bore", 2, 83.038, 83.031, 83.0444, "out");
  wide["reasons"] = {reason("size", 83.0444, 83.035, "upper", "out"), reason("taper", 0.0134, 0.012, "upper", "out")};
  auto part = size_of("bore", 3, 83.012, 83.012, 83.012, "incomplete");
  part["readings"] = 1;
  part["missing"] = 5;
  auto journal = size_of("main_journal", 1, 59.99, 59.99, 59.99, "in");
  journal["verdict"] = nullptr;
  journal["stage"] = "after grinding";
  auto tight = fit_of("main_clearance", 1, 0.0298, 0.033, "out");
  tight["reasons"] = Json::array({reason("clearance", 0.0298, 0.035, "lower", "out")});
  auto near = fit_of("main_clearance", 2, 0.0352, 0.0401, "doubtful");
  near["uncertainty_mm"] = 0.0025;
  const Json spread = {{"feature", "main_journal"},
                       {"spread_mm", 0.0061},
                       {"limit_mm", 0.005},
                       {"uncertainty_mm", nullptr},
                       {"verdict", "out"}};
  const Json oil = {
      {"feature", "oil_feed_clear"}, {"index", 1}, {"label", "1"}, {"answer", "later"}, {"note", "plug missing"},
      {"verdict", "incomplete"}};
  const Json next = {
      {"act", "measure"}, {"feature", "bore"},       {"index", 3},
      {"label", "3"},     {"seqs", Json::array()},   {"places", {"bore/3/top/pin", "bore/3/middle/thrust"}},
      {"gauge", nullptr}, {"text", "measure bore 3"}};
  return {{"engine", "K31"},
          {"title", "Inline six, 2.6 litre"},
          {"unit", "mm"},
          {"spec", 3},
          {"features", {round, wide, part, journal}},
          {"fits",
           {tight, near, fit_of("main_clearance", 3, 0.041, 0.0462, "in"),
            fit_of("main_clearance", 4, nullptr, nullptr, "incomplete")}},
          {"spreads", {spread}},
          {"checks", {oil}},
          {"ready", {next}},
          {"alerts", 2},
          {"verdict", "out"}};
}

}  // namespace tenth::cli
