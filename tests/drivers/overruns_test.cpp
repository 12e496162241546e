#include "drivers/link/overruns.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include "drivers/burst.hpp"
#include "drivers/catalog.hpp"
#include "schema/profile/profile_file.hpp"
#include "tests/support/pty.hpp"

namespace tenth::drivers {
namespace {

/// What a `line` gauge's numbers and faults are where each text is one read of the port, in one burst, with the
/// kernel's count of lost bytes after it.
std::vector<std::string> told(const std::vector<std::pair<std::string, std::optional<std::uint32_t>>>& reads) {
  const auto decoder = make_decoder(parse_profile(find_shipped("line")->text, "line").value(), Unit::mm, Wire::serial);
  Overruns overruns;
  Burst burst;
  std::vector<std::string> all;
  for (const auto& [text, lost] : reads) {
    std::vector<Received> bytes;
    for (const char c : text) bytes.push_back({static_cast<std::uint8_t>(c), false});
    overruns.mark(bytes, lost);
    for (const auto& [event, damaged, unseen] : burst.take(decoder->feed(bytes), 1, false)) {
      const auto* const read = std::get_if<Measurement>(&event);
      all.push_back(read != nullptr ? read->text : std::string(name(std::get<Fault>(event).why)));
      if (damaged) all.back() += " suspect";
    }
  }
  return all;
}

using Lines = std::vector<std::string>;

TEST(OverrunsTest, ANumberThatMayHaveLostADigitIsAFault) {
  EXPECT_EQ(told({{"", 7}, {"83.010\r", 7}, {"3.010\r", 8}}), (Lines{"83.010", "parity"}));
}

TEST(OverrunsTest, ItsNeighboursAreSuspectForTheGapMayBeTheirs) {
  EXPECT_EQ(told({{"", 0}, {"83.010\r3.011\r83.0", 2}, {"12\r", 2}}),
            (Lines{"parity", "3.011 suspect", "83.012 suspect"}));
}

TEST(OverrunsTest, AFrameThatHadBegunBeforeTheGapIsAFault) {
  EXPECT_EQ(told({{"", 0}, {"83.0", 0}, {"0\r", 1}}), Lines{"parity"});
}

TEST(OverrunsTest, WhatWasLostBeforeThePortWasOursIsNoMatter) {
  EXPECT_EQ(told({{"83.010\r", 40}}), Lines{"83.010"});
}

TEST(OverrunsTest, APortThatCountsNoneIsReadAsItIs) {
  EXPECT_EQ(told({{"83.010\r", std::nullopt}, {"83.011\r", std::nullopt}}), (Lines{"83.010", "83.011"}));
  const test::Pty pty;
  const int port = ::open(pty.path().c_str(), O_RDWR | O_NOCTTY | O_CLOEXEC);
  EXPECT_EQ(lost_bytes(port), std::nullopt);
  ::close(port);
}

}  // namespace
}  // namespace tenth::drivers
