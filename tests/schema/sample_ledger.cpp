#include "sample_ledger.hpp"

namespace tenth::sample {
namespace {

constexpr const char* kSpecText = R"(title = "Demo twin"
unit = "mm"
[layout]
cylinders = 2
[feature.bore]
count = "cylinders"
kind = "inside"
limits = [80.000, 80.030]
[feature.piston]
count = "cylinders"
kind = "outside"
limits = [79.940, 79.960]
[fit.piston_clearance]
inside = "bore"
outside = "piston"
limits = [0.040, 0.080]
)";

/// Writes entries as the daemon does: what every body holds, then what its kind asks for.
struct Writer {
  std::vector<std::string> bodies;

  std::int64_t add(const std::string& kind, Json body) {
    const auto seq = static_cast<std::int64_t>(bodies.size()) + 1;
    const std::string second = std::to_string(10 + seq);
    body.update({{"kind", kind},
                 {"time", "2026-03-01T08:00:" + second + ".000000Z"},
                 {"mono_ns", seq * 1'000'000},
                 {"boot", "b00700000000"},
                 {"salt", "00112233445566" + second},
                 {"by", {{"user", "shop"}, {"uid", 1000}, {"via", "socket"}}},
                 {"operator", seq > 3 ? Json("first bench") : Json(nullptr)}});
    bodies.push_back(canonical(body));
    return seq;
  }

  std::int64_t reading(const std::string& engine, const char* feature, int index, std::int64_t size_um,
                       Json more = {}) {
    const bool red = engine == "red";
    Json body = {{"engine", engine},
                 {"feature", feature},
                 {"index", index},
                 {"level", nullptr},
                 {"axis", nullptr},
                 {"label", std::to_string(index)},
                 {"gauge", "comparator"},
                 {"raw", std::to_string(size_um)},
                 {"text", std::to_string(size_um)},
                 {"unit", "mm"},
                 {"value_pm", size_um * 1'000'000},
                 {"size_pm", size_um * 1'000'000},
                 {"state", "kept"},
                 {"doubts", Json::array()},
                 {"source", "gauge"},
                 {"stage", "as found"},
                 {"stage_entry", nullptr},
                 {"reason", nullptr},
                 {"setting", kSetting},
                 {"gauge_entry", 5},
                 {"profile_entry", 4},
                 {"operator_entry", 3},
                 {"spec", red ? kRedSpec : kBlueSpec},
                 {"calibration", nullptr},
                 {"temperature", nullptr},
                 {"place", red ? 11 : kBluePlace}};
    if (more.is_object()) body.update(more);
    return add("reading", body);
  }

  void place(const std::string& engine) {
    add("place", {{"engine", engine},
                  {"gauge", nullptr},
                  {"feature", "bore"},
                  {"index", 1},
                  {"level", nullptr},
                  {"axis", nullptr},
                  {"round", nullptr},
                  {"at", nullptr}});
  }
};

void begin(Writer& w) {
  w.add("ledger", {{"id", "00112233445566778899aabbccddeeff"}, {"format", 1}});
  w.add("start", {{"version", "0.1.0"}});
  w.add("operator", {{"name", "first bench"}, {"user", nullptr}});
  w.add("profile", {{"name", "line-plain"}, {"sha256", "aa"}, {"text", "decoder = \"line\""}});
  w.add("gauge", {{"gauge", "comparator"},
                  {"port", "hand"},
                  {"profile", "line-plain"},
                  {"profile_sha256", "aa"},
                  {"reads", "size"},
                  {"measures", "any"},
                  {"unit", "mm"},
                  {"resolution_pm", 1'000'000},
                  {"uncertainty_pm", 2'000'000},
                  {"repeatability_pm", nullptr},
                  {"drift_pm", 2'500'000},
                  {"serial", nullptr},
                  {"expansion", nullptr},
                  {"profile_entry", 4}});
  for (const char* engine : {"red", "blue"}) {
    w.add("spec", {{"engine", engine}, {"file", "twin.toml"}, {"text", kSpecText}});
    w.add("engine", {{"engine", engine}, {"spec", engine == std::string("red") ? kRedSpec : kBlueSpec}});
  }
  w.add("setting", {{"gauge", "comparator"},
                    {"gauge_entry", 5},
                    {"master_pm", 80'000'000'000},
                    {"shown_pm", 0},
                    {"unit", "mm"},
                    {"drift_pm", nullptr},
                    {"good", nullptr},
                    {"sets_zero", true}});
}

}  // namespace

std::vector<Row> chained(const std::vector<std::string>& bodies) {
  std::vector<Row> rows;
  Digest before{};
  for (const std::string& body : bodies) {
    before = chain(before, sha256(body));
    rows.push_back({static_cast<std::int64_t>(rows.size()) + 1, body, before});
  }
  return rows;
}

std::vector<Row> two_engines() {
  Writer w;
  begin(w);
  w.place("red");
  w.place("blue");
  w.reading("red", "bore", 1, 80'012);
  w.reading("blue", "bore", 1, 80'045);
  w.reading("blue", "bore", 2, 80'010);
  const auto wrong = w.reading("red", "bore", 1, 80'020);
  w.add("move", {{"engine", "red"},
                 {"reason", "pressed in the wrong bore"},
                 {"moves",
                  {{{"seq", wrong},
                    {"feature", "bore"},
                    {"index", 2},
                    {"level", nullptr},
                    {"axis", nullptr},
                    {"label", "2"},
                    {"stage", "as found"},
                    {"stage_entry", nullptr},
                    {"doubts", Json::array()},
                    {"state", "kept"}}}}});
  w.reading("red", "piston", 1, 79'950);
  const auto slip = w.reading("red", "piston", 2, 7'995, {{"state", "suspect"}, {"doubts", {"range", "tenfold"}}});
  w.add("void", {{"engine", "red"}, {"seqs", {slip}}, {"reason", "slip of the point"}});
  w.reading("red", "piston", 2, 79'952);
  const auto stage =
      w.add("stage", {{"engine", "red"}, {"name", "after coating"}, {"features", {"piston"}}, {"carry", true}});
  w.reading("red", "piston", 1, 79'958, {{"stage", "after coating"}, {"stage_entry", stage}});
  w.add("stop", {{"version", "0.1.0"}});
  return chained(w.bodies);
}

}  // namespace tenth::sample
