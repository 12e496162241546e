// Alerts that reach somebody: the builder's program, an HTTP server, and what the session is to do.
#include <algorithm>
#include <fstream>
#include <thread>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class AlertSinks : public Bench {
 protected:
  std::string config() const override {
    // It writes when it was reached, in nanoseconds, and what it was told.
    const auto program =
        write("pager", "#!/bin/sh\nread -r line\necho \"$(date +%s%N) $1 $line\" >> '" + heard().string() + "'\n");
    std::filesystem::permissions(program, std::filesystem::perms::owner_all);
    return Bench::config() + "[alert]\nprogram = [\"" + program.string() +
           "\", \"ann\"]\nsound = false\ndesktop = true\n";
  }
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("g", {"--unit", "mm"});
  }
  std::filesystem::path heard() const { return home_ / "heard"; }

  struct Heard {
    std::int64_t at_us;
    std::string to;
    json alert;
  };
  /// What the program was told, once it is so many lines.
  std::vector<Heard> told(std::size_t lines) const {
    std::vector<Heard> all;
    for (const Deadline until = in(std::chrono::seconds(15));
         all.size() < lines && std::chrono::steady_clock::now() < until; std::this_thread::sleep_for(Millis(5))) {
      all.clear();
      std::ifstream file(heard());
      Heard one;
      for (std::string line; file >> one.at_us >> one.to && std::getline(file, line); all.push_back(one)) {
        one.at_us /= 1000;
        one.alert = json::parse(line);
      }
    }
    EXPECT_EQ(all.size(), lines);
    return all;
  }
};

std::int64_t wall_us(const json& alert) {
  std::tm time{};
  const auto text = alert["time"].get<std::string>();
  const char* const rest = strptime(text.c_str(), "%Y-%m-%dT%H:%M:%S", &time);
  return timegm(&time) * 1'000'000LL + std::stoll(std::string(rest + 1, 6));
}

TEST_F(AlertSinks, AnOutOfToleranceVerdictReachesTheProgramWithin100ms) {
  std::vector<std::int64_t> after_ms;
  for (int gap = 1; gap <= 4; ++gap) {
    press_at({"ring_gap_top", std::to_string(gap)}, "g", line("0.520"));
    const json event = watch_->next("alert");
    const auto all = told(static_cast<std::size_t>(gap));
    ASSERT_EQ(all.size(), static_cast<std::size_t>(gap));
    EXPECT_EQ(all.back().alert, event);
    EXPECT_EQ(all.back().to, "ann");
    after_ms.push_back((all.back().at_us - wall_us(event)) / 1000);
  }
  // From the decision, so the commit counts too. A machine that builds beside may be slow once, not always.
  std::sort(after_ms.begin(), after_ms.end());
  RecordProperty("median_ms", static_cast<int>(after_ms[1]));
  EXPECT_LT(after_ms.front(), 100);
  EXPECT_LT(after_ms.back(), 2000);
}

TEST_F(AlertSinks, HearOfTheEndAndOfWhoCleared) {
  press_at({"ring_gap_top", "2"}, "g", line("0.520"));
  done({"undo"});
  press_at({"ring_gap_top", "3"}, "g", line("0.520"));
  const auto raised = told(3);
  done({"alerts", "clear", raised[2].alert["id"].dump(), "--note", "other ring set"});
  const auto all = told(4);
  EXPECT_EQ(all[1].alert["state"], "ended");
  EXPECT_EQ(all[1].alert["id"], all[0].alert["id"]);
  EXPECT_EQ(all[3].alert["state"], "cleared");
  EXPECT_EQ(all[3].alert["note"], "other ring set");
}

TEST_F(AlertSinks, TheSessionLearnsWhatItIsToDo) {
  EXPECT_EQ(asked({"status"})["in_session"], (json{{"sound", false}, {"desktop", true}}));
}

class BrokenSinks : public ColdBench {};

TEST_F(BrokenSinks, AWrongKeyIsNamedAndEndsWithTwo) {
  write("tenthd.toml", "[alert]\nprogramm = [\"/bin/true\"]\n");
  const Ran ran = run(daemon_.command());
  EXPECT_EQ(ran.status, 2);
  EXPECT_NE(ran.err.find("tenthd.toml:2:1: unknown key `programm`; did you mean `program`?"), std::string::npos)
      << ran.err;
}

}  // namespace
}  // namespace acceptance
