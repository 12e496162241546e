// The bench in a terminal: `tenth bench` in tmux beside a real daemon, as it is seen there.
#include <fstream>
#include <thread>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Screen : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("g", {"--unit", "mm"});
    done({"round", "ring_gap_top"});
    const auto script =
        write("show", "#!/bin/sh\nstty > '" + (home_ / "before").string() + "'\n'" + tenth_path() +
                          "' bench\necho \"ended $?\" > '" + (home_ / "ended").string() + "'\nstty > '" +
                          (home_ / "after").string() + "'\necho back; exec sleep 100\n");
    std::filesystem::permissions(script, std::filesystem::perms::owner_all);
    tmux({"-f", "/dev/null", "new-session", "-d", "-x", "80", "-y", "24", script.string()});
  }
  void TearDown() override { tmux({"kill-server"}); }

  /// A tmux server of this test alone.
  std::string tmux(const Words& words) const {
    Words all{"tmux", "-u", "-S", home_ / "tmux"};
    all.insert(all.end(), words.begin(), words.end());
    return run(all).out;
  }
  std::vector<std::string> seen() const {
    std::vector<std::string> rows;
    std::istringstream text(tmux({"capture-pane", "-p"}));
    for (std::string row; std::getline(text, row);) rows.push_back(row);
    return rows;
  }
  /// Whether a row begins so, within the time.
  bool shows(const std::string& begin, Millis wait = std::chrono::seconds(15)) const {
    for (const Deadline until = in(wait); std::chrono::steady_clock::now() < until;
         std::this_thread::sleep_for(Millis(20)))
      for (const std::string& row : seen())
        if (row.starts_with(begin)) return true;
    std::string all;
    for (const std::string& row : seen()) all += row + "\n";
    ADD_FAILURE() << "no row begins with '" << begin << "':\n" << all;
    return false;
  }
  std::string file(const std::string& name) const {
    std::ifstream stream(home_ / name);
    return {std::istreambuf_iterator<char>(stream), {}};
  }
  void key(const std::string& name) const { tmux({"send-keys", name}); }
  void signal(const std::string& name) const {
    tmux({"run-shell", "kill -" + name + " $(pgrep -P #{pane_pid} tenth)"});
  }
  bool ended() const {
    for (const Deadline until = in(std::chrono::seconds(5));
         file("after").empty() && std::chrono::steady_clock::now() < until;)
      std::this_thread::sleep_for(Millis(10));
    EXPECT_EQ(file("after"), file("before"));
    return file("ended") == "ended 0\n" && shows("back");
  }
};

TEST_F(Screen, FollowsARoundAsItIsMeasured) {
  ASSERT_TRUE(shows("next  ring gap top 2   0 of 4 done"));
  press("g", line("0.400"));
  EXPECT_TRUE(shows("last: ring gap top 1, mm"));
  EXPECT_TRUE(shows("+ in, 0."));
  EXPECT_TRUE(shows("next  ring gap top 3   1 of 4 done"));
  press("g", line("0.520"));
  EXPECT_TRUE(shows("! OUT, 0.020 mm over the upper limit"));
  EXPECT_TRUE(shows("! STOP cannot be undone: ring_gap_top 2"));
  press("g", line("4.000"));
  EXPECT_TRUE(shows("? SUSPECT: "));
  EXPECT_TRUE(shows("measure again, or: tenth keep"));
  EXPECT_EQ(seen().size(), 24U);
}

TEST_F(Screen, KeysGoOnBackAndTakeBack) {
  ASSERT_TRUE(shows("next  ring gap top 2   0 of 4 done"));
  key("n");
  EXPECT_TRUE(shows("next  ring gap top 3"));
  key("b");
  EXPECT_TRUE(shows("next  ring gap top 2"));
  press("g", line("0.400"));
  EXPECT_TRUE(shows("last: ring gap top 1, mm"));
  key("u");
  EXPECT_TRUE(shows("x void: "));
  EXPECT_EQ(asked({"readings"}), json::array());
  key("q");
  EXPECT_TRUE(ended());
}

TEST_F(Screen, ADaemonThatIsGoneIsSaidWithin2sAndOneThatIsBackToo) {
  ASSERT_TRUE(shows("next  ring gap top 2   0 of 4 done"));
  daemon_.kill();
  EXPECT_TRUE(shows("! the daemon is gone: this is ", Millis(2000)));
  daemon_.start();
  EXPECT_TRUE(shows("────────", std::chrono::seconds(10)));
  restart_watch();
  wait_open("g");
  press("g", line("0.400"));
  EXPECT_TRUE(shows("next  ring gap top 3   1 of 4 done"));
}

TEST_F(Screen, ADaemonThatStandsIsSaidWithin2s) {
  ASSERT_TRUE(shows("next  ring gap top 2   0 of 4 done"));
  ::kill(daemon_.pid(), SIGSTOP);
  EXPECT_TRUE(
      shows("! the daemon is gone: this is ", Millis(2500)));  // it stops up to half a second after the last answer
  ::kill(daemon_.pid(), SIGCONT);
  EXPECT_TRUE(shows("────────", std::chrono::seconds(10)));
}

TEST_F(Screen, FollowsTheSizeOfItsTerminal) {
  ASSERT_TRUE(shows("n next  b back  u undo  q quit"));
  tmux({"resize-window", "-x", "100", "-y", "40"});
  EXPECT_TRUE(shows("piston "));
  EXPECT_EQ(seen().size(), 40U);
  tmux({"resize-window", "-x", "60", "-y", "12"});
  EXPECT_TRUE(shows("ring gap top 1"));
}

TEST_F(Screen, GivesTheTerminalBackWhenASignalEndsIt) {
  for (const char* name : {"TERM", "HUP", "QUIT"}) {
    ASSERT_TRUE(shows("next  ring gap top 2   0 of 4 done"));
    signal(name);
    EXPECT_TRUE(ended()) << name;
    for (const char* left : {"ended", "after"}) std::filesystem::remove(home_ / left);
    tmux({"respawn-pane", "-k", (home_ / "show").string()});
  }
}

}  // namespace
}  // namespace acceptance
