// Whole engines, measured by presses alone once the rounds have begun: two gauges at a time, with slips, a cable that
// is pulled, and a daemon that is killed in the middle. What counts in the end is what a list made beforehand says.
#include <map>
#include <vector>

#include "tests/end_to_end/bench.hpp"

namespace acceptance {
namespace {

struct Kind {
  std::string feature;
  std::vector<std::string> labels, levels, axes;
  std::string shown;  // what its gauge shows there
  double size_mm;     // and what that is
};

struct Layout {
  std::string name, layout;
  std::vector<std::string> cylinders, mains, pins;
  friend void PrintTo(const Layout& layout, std::ostream* out) { *out << layout.name; }
};

const Layout inline_six = {"six",
                           "cylinders = 6\nmains = 7\ncrankpins = 6\n",
                           {"1", "2", "3", "4", "5", "6"},
                           {"1", "2", "3", "4", "5", "6", "7"},
                           {"1", "2", "3", "4", "5", "6"}};
const Layout vee_eight = {"eight",
                          "cylinders = 8\nmains = 5\ncrankpins = 4\nlabels = [\"L1\", \"R1\", \"L2\", \"R2\", \"L3\", "
                          "\"R3\", \"L4\", \"R4\"]\n"
                          "pins = [[\"L1\", \"R1\"], [\"L2\", \"R2\"], [\"L3\", \"R3\"], [\"L4\", \"R4\"]]\n",
                          {"L1", "R1", "L2", "R2", "L3", "R3", "L4", "R4"},
                          {"1", "2", "3", "4", "5"},
                          {"1", "2", "3", "4"}};

std::string spec_of(const Layout& layout) {
  return "title = \"Acceptance: the " + layout.name + "\"\nunit = \"mm\"\n[layout]\n" + layout.layout + R"(
[feature.bore]
count = "cylinders"
kind = "inside"
limits = [90.000, 90.030]
levels = ["top", "middle", "bottom"]
axes = ["thrust", "pin"]
out_of_round = 0.010
[feature.main_bearing]
count = "mains"
kind = "inside"
limits = [60.040, 60.060]
axes = ["vertical", "oblique"]
[feature.piston]
count = "cylinders"
kind = "outside"
limits = [89.940, 89.960]
[feature.main_journal]
count = "mains"
kind = "outside"
limits = [59.985, 60.000]
levels = ["front", "rear"]
fastest = "level"
[feature.crankpin]
count = "crankpins"
kind = "outside"
limits = [49.985, 50.000]
[fit.piston_clearance]
inside = "bore"
outside = "piston"
limits = [0.045, 0.075]
[fit.main_clearance]
inside = "main_bearing"
outside = "main_journal"
limits = [0.045, 0.075]
)";
}

// The order in which a person walks: index after index, level after level, both axes at each.
std::vector<std::string> walk(const Kind& kind) {
  std::vector<std::string> places;
  const auto or_one = [](const std::vector<std::string>& names) {
    return names.empty() ? std::vector<std::string>{""} : names;
  };
  for (std::size_t index = 1; index <= kind.labels.size(); ++index)
    for (const auto& level : or_one(kind.levels))
      for (const auto& axis : or_one(kind.axes))
        places.push_back(kind.feature + "/" + std::to_string(index) + (level.empty() ? "" : "/" + level) +
                         (axis.empty() ? "" : "/" + axis));
  return places;
}

class WholeEngine : public Bench, public testing::WithParamInterface<Layout> {
 protected:
  // One gauge on its round: what it still has to press.
  struct Walker {
    std::string gauge;
    std::vector<std::pair<std::string, Kind>> left;
    std::size_t at = 0;
    bool done() const { return at == left.size(); }
  };

  Walker walker(const std::string& gauge, const std::vector<Kind>& kinds) {
    Walker walker{gauge, {}, 0};
    Words words = {"round"};
    for (const Kind& kind : kinds) {
      words.push_back(kind.feature);
      for (const std::string& place : walk(kind)) walker.left.emplace_back(place, kind);
    }
    words.insert(words.end(), {"--gauge", gauge});
    done(words);
    return walker;
  }

  // A press where the round stands; with a slip before it that must be held and must not move the round.
  void press_next(Walker& walker, bool slips) {
    const auto& [place, kind] = walker.left[walker.at];
    if (slips) {
      const json held = press(walker.gauge, line("9." + kind.shown.substr(kind.shown.find('.') + 1)));
      ASSERT_EQ(held["state"], "suspect") << held;
      ASSERT_EQ(place_of(held), place);
    }
    const json kept = press(walker.gauge, line(kind.shown));
    ASSERT_EQ(kept["state"], "kept") << kept;
    ASSERT_EQ(place_of(kept), place);
    ASSERT_EQ(kept["size_mm"], kind.size_mm);
    ++walker.at;
  }

  void set_dial(const std::string& act) {
    done(act == "master" ? Words{"master", "dial", "90.000"} : Words{"recheck", "dial"});
    cable("dial").send(line("0.000"));
    EXPECT_NE(watch_->next("setting")["good"], false);
  }

  void pull_the_cable() {
    cable("dial").unplug();
    watch_->next("gauge", [](const json& event) { return event["gauge"] == "dial" && event["state"] == "gone"; });
    cable("dial").plug();
    wait_open("dial");
    set_dial("recheck");  // it was away: its zero is vouched for again before it measures on
  }

  void kill_and_start() {
    daemon_.kill();
    daemon_.start();
    restart_watch();
    for (const auto& [name, wire] : cables_) wait_open(name);
  }
};

TEST_P(WholeEngine, IsMeasuredByPressesAlone) {
  const Layout& it = GetParam();
  engine(spec_of(it), it.name);
  gauge("dial", {"--unit", "mm", "--reads", "deviation", "--measures", "inside"});
  gauge("mic", {"--unit", "mm", "--measures", "outside"});
  gauge("tube", {"--unit", "mm", "--measures", "inside"});
  set_dial("master");
  std::vector<Walker> walkers = {
      walker("dial", {{"bore", it.cylinders, {"top", "middle", "bottom"}, {"thrust", "pin"}, "0.012", 90.012}}),
      walker("mic", {{"main_journal", it.mains, {"front", "rear"}, {}, "59.990", 59.990},
                     {"piston", it.cylinders, {}, {}, "89.950", 89.950},
                     {"crankpin", it.pins, {}, {}, "49.990", 49.990}}),
      walker("tube", {{"main_bearing", it.mains, {}, {"vertical", "oblique"}, "60.050", 60.050}})};
  int presses = 0;
  for (bool on = true; on;) {
    on = false;
    for (Walker& walker : walkers) {
      if (walker.done()) continue;
      on = true;
      ++presses;
      press_next(walker, presses % 9 == 0 && walker.gauge != "dial");
      if (HasFatalFailure()) return;
      if (presses == 14) pull_the_cable();
      if (presses == 23) kill_and_start();
    }
  }
  for (const Walker& walker : walkers)
    for (const json& place : asked({"status"})["places"])
      EXPECT_TRUE(place["gauge"] != walker.gauge || place["feature"].is_null())
          << "the round is not through: " << place;

  const json readings = asked({"readings"});
  std::map<std::string, int> seen;
  for (const json& reading : readings) ++seen[place_of(reading)];
  std::size_t places = 0;
  for (const Walker& walker : walkers)
    for (const auto& [place, kind] : walker.left) {
      EXPECT_EQ(seen[place], 1) << place;
      ++places;
    }
  EXPECT_EQ(readings.size(), places) << "nothing was invented";
  for (const json& gauge : asked({"check"})["unconfirmed"]) EXPECT_EQ(gauge["gauge"], "dial");
  set_dial("recheck");
  const json report = asked({"check"});
  EXPECT_TRUE(report["unconfirmed"].empty()) << report["unconfirmed"];
  for (const json& feature : report["features"]) EXPECT_EQ(feature["missing"], 0) << feature;
  EXPECT_EQ(report["verdict"], "in");
  EXPECT_EQ(asked({"audit", "--ledger", daemon_.ledger()})["ok"], true);
}

INSTANTIATE_TEST_SUITE_P(Layouts, WholeEngine, testing::Values(inline_six, vee_eight),
                         [](const testing::TestParamInfo<Layout>& each) { return each.param.name; });

}  // namespace
}  // namespace acceptance
