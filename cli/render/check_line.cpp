#include "cli/render/check_line.hpp"

#include "cli/render/text.hpp"

namespace tenth::cli {
namespace {

std::string shown(const std::optional<Length>& value, Unit unit) {
  return value ? fixed(*value, unit, usual_places(unit)) : "-";
}

/// How far a figure lies past its limit, never rounded down to nothing.
std::string excess(const Json& reason, Unit unit) {
  const auto value = length(reason, "value_mm");
  const auto limit = length(reason, "limit_mm");
  if (!value || !limit) return "";
  const Length by = (*value - *limit).magnitude();
  constexpr int kMostPlaces = 9;
  int places = usual_places(unit);
  while (places < kMostPlaces && fixed(by, unit, places).find_first_of("123456789") == std::string::npos) ++places;
  return fixed(by, unit, places) + (text(reason, "side") == "lower" ? " under" : " over");
}

/// "0.003 over 83.035", "taper 0.002 over": what is out, and by how much.
std::vector<std::string> faults(const Json& line, Unit unit) {
  std::vector<std::string> all;
  for (const auto& reason : line.value("reasons", Json::array())) {
    if (text(reason, "verdict") != "out") continue;
    const auto what = text(reason, "what");
    const auto by = excess(reason, unit);
    if (what == "size")
      all.push_back(by + " " + shown(length(reason, "limit_mm"), unit));
    else if (what == "clearance")
      all.push_back(by);
    else
      all.push_back((what == "out_of_round" ? "round" : what) + " " + by);
  }
  return all;
}

void add_uncertainty(std::vector<std::string>& remarks, const Json& line, Unit unit) {
  const auto u = length(line, "uncertainty_mm");
  if (u && text(line, "verdict") == "doubtful") remarks.push_back("+-" + fixed(*u, unit, places_for({*u}, unit)));
}

bool wants_setup(const Json& line) {
  for (const auto& reason : line.value("reasons", Json::array()))
    if (text(reason, "what") == "setup") return true;
  return false;
}

/// "barrel +0.004", and what was meant where it is another; empty where no shape is asked for or found.
std::string shape_text(const Json& shape, Unit unit) {
  if (!shape.is_object() || text(shape, "found").empty()) return "";
  const auto found = text(shape, "found"), asked = text(shape, "asked");
  const bool bellied = found == "barrel" || found == "waist";
  const auto by = length(shape, bellied ? "belly_mm" : "signed_taper_mm");
  return found + (by > Length() ? " +" : " ") + shown(by, unit) + (found == asked ? "" : ", meant " + asked);
}

}  // namespace

CheckLine size_line(const Json& feature, Unit unit) {
  CheckLine line{text(feature, "verdict"), text(feature, "feature"), text(feature, "label"), {}, {}};
  for (const char* key : {"mean_mm", "min_mm", "max_mm"}) line.figures.push_back(shown(length(feature, key), unit));
  line.remarks = faults(feature, unit);
  const auto missing = count(feature, "missing");
  const auto all = missing + count(feature, "readings");
  if (wants_setup(feature)) line.remarks.emplace_back("setup not said");
  if (missing > 0) line.remarks.push_back(std::to_string(missing) + " of " + std::to_string(all) + " to measure");
  add_uncertainty(line.remarks, feature, unit);
  if (const auto stage = text(feature, "stage"); !stage.empty() && stage != "as found") line.remarks.push_back(stage);
  if (const auto round = length(feature, "out_of_round_mm")) line.remarks.push_back("round " + shown(round, unit));
  if (const auto taper = length(feature, "taper_mm")) line.remarks.push_back("taper " + shown(taper, unit));
  if (const auto shape = shape_text(feature.value("shape", Json()), unit); !shape.empty())
    line.remarks.push_back(shape);
  if (feature.value("corrected", Json()) == true) line.remarks.emplace_back("at 20 C");
  if (feature.value("carried", Json()) == true) line.remarks.emplace_back("carried");
  return line;
}

CheckLine returned_line(const Json& part, Unit unit) {
  CheckLine line{text(part, "verdict"), text(part, "feature"), text(part, "label"), {}, {}};
  const auto asked = length(part, "asked_mm"), within = length(part, "within_mm");
  line.figures = {shown(length(part, "min_mm"), unit), shown(length(part, "max_mm"), unit),
                  shown(*asked - *within, unit), shown(*asked + *within, unit)};
  if (line.verdict == "incomplete") line.remarks.emplace_back("to measure");
  line.remarks.push_back("as asked of " + text(part, "from"));
  return line;
}

CheckLine fit_line(const Json& fit, Unit unit) {
  CheckLine line{text(fit, "verdict"), text(fit, "fit"), text(fit, "label"), {}, {}};
  line.figures = {shown(length(fit, "min_mm"), unit), shown(length(fit, "max_mm"), unit),
                  shown(length(fit, "lower_mm"), unit), shown(length(fit, "upper_mm"), unit)};
  line.remarks = faults(fit, unit);
  if (line.remarks.empty() && fit.value("outside_index", Json(0)).is_null()) line.remarks.emplace_back("no mate");
  if (line.remarks.empty() && wants_setup(fit)) line.remarks.emplace_back("setup not said");
  if (line.remarks.empty() && line.verdict == "incomplete") line.remarks.emplace_back("to measure");
  add_uncertainty(line.remarks, fit, unit);
  if (const auto corrected = fit.value("corrected", Json()); corrected == true)
    line.remarks.emplace_back("at 20 C");
  else if (corrected.is_string())
    line.remarks.push_back(text(fit, "corrected") + " only at 20 C");
  if (const auto target = length(fit, "target_mm")) line.remarks.push_back("aim " + shown(target, unit));
  return line;
}

CheckLine spread_line(const Json& spread, Unit unit) {
  CheckLine line{text(spread, "verdict"), text(spread, "feature"), "", {}, {}};
  const auto value = length(spread, "spread_mm");
  const auto limit = length(spread, "limit_mm");
  line.figures = {shown(value, unit), shown(limit, unit)};
  if (line.verdict == "out")
    line.remarks.push_back(excess({{"value_mm", spread.at("spread_mm")}, {"limit_mm", spread.at("limit_mm")}}, unit));
  if (!value) line.remarks.emplace_back("to measure");
  add_uncertainty(line.remarks, spread, unit);
  return line;
}

CheckLine answer_check_line(const Json& check) {
  const auto answer = text(check, "answer");
  CheckLine line{text(check, "verdict"), text(check, "feature"), text(check, "label"), {}, {}};
  line.remarks.push_back(answer.empty() ? "to answer" : answer);
  if (const auto note = text(check, "note"); !note.empty()) line.remarks.push_back(note);
  return line;
}

}  // namespace tenth::cli
