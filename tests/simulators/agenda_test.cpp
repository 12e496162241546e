#include "simulators/agenda.hpp"

#include <gtest/gtest.h>

#include <string>

namespace tenth::simulators {
namespace {

using namespace std::chrono_literals;

constexpr Time kBegin{};

TEST(Agenda, DoesWhatIsDueInItsOrder) {
  Agenda agenda;
  std::string done;
  agenda.add(kBegin + 20ms, [&](Time) { done += "c"; });
  agenda.add(kBegin + 10ms, [&](Time) { done += "a"; });
  agenda.add(kBegin + 10ms, [&](Time) { done += "b"; });
  EXPECT_EQ(agenda.next(), kBegin + 10ms);
  agenda.run(kBegin + 9ms);
  EXPECT_EQ(done, "");
  agenda.run(kBegin + 10ms);
  EXPECT_EQ(done, "ab");
  agenda.run(kBegin + 1s);
  EXPECT_EQ(done, "abc");
  EXPECT_FALSE(agenda.next());
}

TEST(Agenda, WhatATaskAddsWaitsForTheNextRun) {
  Agenda agenda;
  int done = 0;
  agenda.add(kBegin, [&](Time now) {
    EXPECT_EQ(now, kBegin + 1ms);
    agenda.add(now, [&](Time) { ++done; });
  });
  agenda.run(kBegin + 1ms);
  EXPECT_EQ(done, 0);
  agenda.run(kBegin + 1ms);
  EXPECT_EQ(done, 1);
}

}  // namespace
}  // namespace tenth::simulators
