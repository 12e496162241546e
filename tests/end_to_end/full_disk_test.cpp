// The disk takes nothing more: it is said, nothing is announced as stored, frames wait, and all of them are stored
// once, in order, when there is room again. The file size that the daemon may write stands for the room.
#include <sys/resource.h>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"
#include "tests/end_to_end/ledger_file.hpp"

namespace acceptance {
namespace {

class FullDisk : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
    gauge("mic", {"--unit", "mm"});
    done({"at", "main_journal", "1"});
    EXPECT_EQ(press("mic", line("53.990"))["state"], "kept");
  }
  void room(rlim_t bytes) {
    rlimit limit{};
    ASSERT_EQ(prlimit(daemon_.pid(), RLIMIT_FSIZE, nullptr, &limit), 0);
    limit.rlim_cur = bytes;
    ASSERT_EQ(prlimit(daemon_.pid(), RLIMIT_FSIZE, &limit, nullptr), 0);
  }
  void fill() { room(1024); }
  void make_room() { room(RLIM_INFINITY); }
  json not_stored() {
    return watch_->next("fault", [](const json& event) { return event["why"] == "not_stored"; });
  }
};

TEST_F(FullDisk, FramesWaitAndAreStoredOnceInOrder) {
  fill();
  for (const char* size : {"53.991", "53.992", "53.993"}) cable("mic").send(line(size));
  not_stored();
  EXPECT_FALSE(watch_->heard("reading"));
  EXPECT_EQ(asked({"readings", "--all"}).size(), 1U);
  const json ledger = asked({"status"})["ledger"];
  EXPECT_EQ(ledger["waiting"], 3);
  const std::string before = run({"date", "-u", "+%FT%T.%6NZ"}).out;
  make_room();
  for (const char* size : {"53.991", "53.992", "53.993"}) {
    const json reading = watch_->next("reading");
    EXPECT_EQ(reading["text"], size);
    EXPECT_EQ(place_of(reading), "main_journal/1");
  }
  EXPECT_EQ(asked({"readings", "--all"}).size(), 4U);
  EXPECT_EQ(asked({"status"})["ledger"]["waiting"], 0);
  EXPECT_EQ(tenth({"audit", "--ledger", daemon_.ledger()}).status, 0);
  const auto kept = entries_of_kind(daemon_.ledger(), "reading");
  ASSERT_EQ(kept.size(), 4U);
  EXPECT_LT(kept.back().json()["arrived"].get<std::string>(), before) << "its own time, not that of storing";
}

TEST_F(FullDisk, CommandsAreRefusedWithOneClearLineAndChangeNothing) {
  fill();
  cable("mic").send(line("53.992"));
  not_stored();
  for (const Words& words : {Words{"at", "piston", "2"},
                             {"round", "bore"},
                             {"note", "warm today"},
                             {"undo"},
                             {"enter", "53.990", "--again", "53.990"},
                             {"stage", "X", "bore"}}) {
    const std::string line = refused(words, 4);
    EXPECT_NE(line.find("nothing was stored"), std::string::npos) << line;
  }
  EXPECT_EQ(tenth({"check"}).status, 0) << "what only reads is answered";
  make_room();
  EXPECT_EQ(place_of(watch_->next("reading")), "main_journal/1") << "the place that was";
  done({"at", "piston", "2"});
}

TEST_F(FullDisk, IsToldAtOnceAndThenEveryTenSeconds) {
  fill();
  cable("mic").send(line("53.991"));
  not_stored();
  const auto first = std::chrono::steady_clock::now();
  cable("mic").send(line("53.992"));
  const json again = not_stored();
  EXPECT_EQ(again["count"], 2) << "how many wait";
  EXPECT_GE(std::chrono::steady_clock::now() - first, std::chrono::milliseconds(9500));
  make_room();
  watch_->next("reading");
  watch_->next("reading");
}

TEST_F(FullDisk, AStopThatLosesFramesSaysSo) {
  fill();
  cable("mic").send(line("53.991"));
  not_stored();
  EXPECT_EQ(daemon_.stop(), 4);
  EXPECT_EQ(tenth({"audit", "--ledger", daemon_.ledger()}).status, 0);
  daemon_.start();
  EXPECT_EQ(asked({"readings", "--all"}).size(), 1U);
}

}  // namespace
}  // namespace acceptance
