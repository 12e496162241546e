// Ports: there, away, back, and in other hands.
#include <fcntl.h>
#include <sys/file.h>
#include <sys/ioctl.h>
#include <unistd.h>

#include <csignal>
#include <thread>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class Port : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
  }
  json told(const std::string& state) {
    return watch_->next("gauge", [&](const json& event) { return event["state"] == state; });
  }
  PtyGauge& cable_only(const std::string& name) {
    cables_[name] = std::make_unique<PtyGauge>(home_ / ("port-" + name));
    return cable(name);
  }
  Words add(const std::string& name, const std::string& profile = "line") {
    return {"gauge", "add", name, "--port", cable(name).port(), "--profile", profile, "--unit", "mm"};
  }
};

TEST_F(Port, AwayAndBackUnderTheSamePathIsOpenWithinASecond) {
  gauge("g", {"--unit", "mm"});
  for (int turn = 0; turn < 3; ++turn) {
    watch_->forget();
    cable("g").unplug();
    EXPECT_EQ(told("gone")["gauge"], "g");
    EXPECT_EQ(pick(asked({"status"})["gauges"], {{"name", "g"}})["state"], "gone");
    const auto plugged = std::chrono::steady_clock::now();
    cable("g").plug();
    told("open");
    const auto waited = std::chrono::steady_clock::now() - plugged;
    EXPECT_LT(std::chrono::duration_cast<Millis>(waited).count(), 1500) << "a second, and room for a loaded machine";
    EXPECT_EQ(doubts_of(press_at({"bore"}, "g", line("70.010"))), "");
  }
}

TEST_F(Port, ThePathIsFollowedAnewToAnotherDevice) {
  gauge("g", {"--unit", "mm"});
  const std::string before = cable("g").device();
  PtyGauge spare(home_ / "spare");  // holds the next number, so that the device behind the path changes
  watch_->forget();
  cable("g").unplug();
  told("gone");
  PtyGauge taken(home_ / "taken");
  cable("g").plug();
  told("open");
  EXPECT_NE(cable("g").device(), before);
  EXPECT_EQ(doubts_of(press_at({"bore"}, "g", line("70.010"))), "");
}

TEST_F(Port, AbsentAtTheAddingIsGoneUntilItComes) {
  done({"gauge", "add", "g", "--port", home_ / "port-g", "--profile", "line", "--unit", "mm"});
  EXPECT_EQ(pick(asked({"status"})["gauges"], {{"name", "g"}})["state"], "gone");
  cable_only("g");
  told("open");
  EXPECT_EQ(doubts_of(press_at({"bore"}, "g", line("70.010"))), "");
}

TEST_F(Port, LockedByAnotherProgramNamesTheHolderAndIsTriedAgain) {
  cable_only("g");
  const Deadline until = in(std::chrono::seconds(2));
  Child holder({"flock", "--no-fork", cable("g").device(), "sleep", "60"});
  // The lock is there once another try for it fails.
  while (run({"flock", "--nonblock", cable("g").device(), "true"}).status == 0) {
    ASSERT_LT(std::chrono::steady_clock::now(), until);
    std::this_thread::sleep_for(Millis(5));
  }
  done(add("g"));
  const json gone = told("gone");
  const std::string why = gone["why"].dump();
  EXPECT_TRUE(why.find("sleep") != std::string::npos || why.find(std::to_string(holder.pid())) != std::string::npos)
      << gone;
  holder.signal(SIGKILL);
  holder.join(in(std::chrono::seconds(2)));
  told("open");
  EXPECT_EQ(doubts_of(press_at({"bore"}, "g", line("70.010"))), "");
}

TEST_F(Port, MadeExclusiveByAnotherProgramIsGone) {
  cable_only("g");
  const int other = open(cable("g").device().c_str(), O_RDWR | O_NOCTTY | O_CLOEXEC);
  ASSERT_GE(other, 0);
  ASSERT_EQ(ioctl(other, TIOCEXCL), 0);
  done(add("g"));
  told("gone");
  ioctl(other, TIOCNXCL);
  told("open");
  close(other);
}

TEST_F(Port, AnOpenDescriptorAloneIsNoUseAndOursIsLockedBothWays) {
  cable_only("g");
  const int other = open(cable("g").device().c_str(), O_RDWR | O_NOCTTY | O_CLOEXEC);
  ASSERT_GE(other, 0);
  done(add("g"));
  wait_open("g");
  int exclusive = 0;
  EXPECT_EQ(ioctl(other, TIOCGEXCL, &exclusive), 0);
  EXPECT_NE(exclusive, 0);
  EXPECT_NE(flock(other, LOCK_EX | LOCK_NB), 0);
  close(other);
}

TEST_F(Port, AfterAKillTheGaugeIsOpenedAgain) {
  gauge("g", {"--unit", "mm"});
  daemon_.kill();
  daemon_.start();
  restart_watch();
  wait_open("g");
  EXPECT_EQ(doubts_of(press_at({"bore"}, "g", line("70.010"))), "");
}

TEST_F(Port, WhatWaitsThereIsRead) {
  cable_only("g").send("FFFF007001030\rFFFF007001130\r");
  done({"at", "bore"});
  done(add("g", "bcd13"));
  EXPECT_EQ(watch_->next("reading")["text"], "70.010");
  EXPECT_EQ(watch_->next("reading")["text"], "70.011");
}

TEST_F(Port, TheSamePortTwiceIsRefused) {
  gauge("g", {"--unit", "mm"});
  refused({"gauge", "add", "h", "--port", cable("g").port(), "--profile", "line", "--unit", "mm"}, 4);
  refused({"gauge", "add", "g", "--port", home_ / "port-other", "--profile", "line", "--unit", "mm"}, 4);
}

TEST_F(Port, ADroppedGaugeReleasesItsPortAndItsNameStaysItsOwn) {
  cable_only("g");
  Words words = add("g");
  words.insert(words.end(), {"--serial", "S-1"});
  done(words);
  wait_open("g");
  done({"gauge", "drop", "g"});
  EXPECT_EQ(run({"flock", "--nonblock", cable("g").device(), "true"}).status, 0);
  words.back() = "S-2";
  refused(words, 4);
  words.back() = "S-1";
  done(words);
  wait_open("g");
}

TEST_F(Port, APathThatIsNoTerminalIsNeverReadAsOne) {
  const std::filesystem::path file = write("port-file", "70.010\r70.011\r");
  const Ran ran = tenth({"gauge", "add", "f", "--port", file, "--profile", "line", "--unit", "mm"});
  if (ran.status == 0) {
    EXPECT_EQ(pick(asked({"status"})["gauges"], {{"name", "f"}})["state"], "gone");
  }
  EXPECT_EQ(asked({"readings", "--all"}), json::array());
  EXPECT_EQ(std::filesystem::file_size(file), 14U);
}

}  // namespace
}  // namespace acceptance
