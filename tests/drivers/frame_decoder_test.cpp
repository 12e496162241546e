#include "drivers/frame_decoder.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>

#include "tests/drivers/recording.hpp"
#include "tests/drivers/shipped.hpp"

namespace tenth::drivers {
namespace {

std::vector<Event> events_of(Decoder& decoder, std::string_view bytes) {
  return decoder.feed(sound(bytes));
}

const Fault& fault(const Event& event) {
  return std::get<Fault>(event);
}

TEST(Framing, TellsABadFrameOnlyWhenItEnds) {
  const auto decoder = decoder_of("line", Unit::mm);
  EXPECT_TRUE(events_of(*decoder, "83.x").empty());
  EXPECT_EQ(fault(events_of(*decoder, "\r").at(0)).text, "the frame does not match the profile's pattern");
  EXPECT_TRUE(events_of(*decoder, "\n").empty());
}

TEST(Framing, BeginsAnewAfterFinish) {
  const auto decoder = decoder_of("bcd13", std::nullopt);
  events_of(*decoder, "FFFF0");
  EXPECT_EQ(fault(decoder->finish().at(0)).why, FaultReason::cut_short);
  EXPECT_TRUE(decoder->finish().empty());
  EXPECT_TRUE(std::holds_alternative<Measurement>(events_of(*decoder, "FFFF001234530\r").at(0)));
  EXPECT_TRUE(decoder->finish().empty());
  EXPECT_EQ(fault(events_of(*decoder, "\nFFFF001234530\r").at(0)).bytes, 14U);
}

TEST(Framing, ARunThatIsDroppedWhenThePortClosesIsTooLong) {
  const auto decoder = decoder_of("line", Unit::mm);
  events_of(*decoder, std::string(65, '8'));
  EXPECT_EQ(fault(decoder->finish().at(0)).why, FaultReason::too_long);
  EXPECT_TRUE(std::holds_alternative<Measurement>(events_of(*decoder, "8\r").at(0)));
}

TEST(Framing, ARunWithoutAnyEndIsToldInPieces) {
  const auto decoder = decoder_of("line", Unit::mm);
  const auto events = events_of(*decoder, std::string(10'000, '8'));
  ASSERT_EQ(events.size(), 2U);
  for (const Event& event : events) {
    EXPECT_EQ(fault(event).why, FaultReason::too_long);
    EXPECT_EQ(fault(event).bytes, kMostUntold);
    EXPECT_EQ(fault(event).raw, std::string(kMostRaw, '8'));
  }
  const auto rest = events_of(*decoder, "\r8\r");
  ASSERT_EQ(rest.size(), 2U);
  EXPECT_EQ(fault(rest[0]).why, FaultReason::too_long);
  EXPECT_EQ(fault(rest[0]).bytes, 10'000 - 2 * kMostUntold);
  EXPECT_EQ(std::get<Measurement>(rest[1]).text, "8");
}

TEST(Framing, TheRestOfATooLongRunIsNeverANumber) {
  const auto decoder = decoder_of("line", Unit::mm);
  const auto events = events_of(*decoder, std::string(kMostUntold, ' ') + "83.0104\r");
  ASSERT_EQ(events.size(), 2U);
  EXPECT_EQ(fault(events[1]).why, FaultReason::too_long);
  EXPECT_EQ(fault(events[1]).raw, "83.0104");
}

TEST(Framing, DamageIsForgottenWithItsFrame) {
  const auto decoder = decoder_of("bin24", std::nullopt);
  auto bytes = sound("0004D2\r0004D2\r");
  bytes[0].damaged = true;
  const auto events = decoder->feed(bytes);
  ASSERT_EQ(events.size(), 2U);
  EXPECT_EQ(fault(events[0]).why, FaultReason::parity);
  EXPECT_EQ(std::get<Measurement>(events[1]).text, "12.34");
}

/// Bytes that come near frames, with a damaged one here and there, now and then in runs past every bound.
std::vector<Received> any_stream() {
  const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::weightedOneOf<std::string>(
      {{6, rc::gen::element<std::string>("83.0104", "FFFF001234530", "0004D2", " ", "-", "mm", "e-3")},
       {6, rc::gen::element<std::string>("\r", "\n", "\r\n")},
       {4, rc::gen::container<std::string>(rc::gen::arbitrary<char>())},
       {1, rc::gen::element(std::string(70, '8'), std::string(300, 'F'), std::string(4200, '0'))}}));
  std::vector<Received> bytes;
  for (const auto& piece : pieces) {
    for (const Received& received : sound(piece)) bytes.push_back(received);
    if (!bytes.empty()) bytes.back().damaged = *rc::gen::weightedElement<bool>({{9, false}, {1, true}});
  }
  return bytes;
}

/// Ends, and line feeds that are nothing.
std::size_t ends_in(const std::vector<Received>& bytes, bool line_feed_ends) {
  std::size_t ends = 0;
  bool after_cr = false;
  for (const auto [byte, damaged] : bytes) {
    const bool cr = byte == '\r' && !damaged;
    ends += cr || (byte == '\n' && !damaged && (line_feed_ends || after_cr)) ? 1 : 0;
    after_cr = cr;
  }
  return ends;
}

std::size_t bytes_in(const std::vector<Event>& events) {
  std::size_t bytes = 0;
  for (const Event& event : events) {
    const auto* lost = std::get_if<Fault>(&event);
    bytes += lost ? lost->bytes : std::get<Measurement>(event).raw.size();
  }
  return bytes;
}

TEST(Framing, AccountsForEveryByteOfAnyStream) {
  for (const std::string format : {"line", "bcd13", "bin24"}) {
    EXPECT_TRUE(rc::check([&format] {
      const auto bytes = any_stream();
      const auto decoder = decoder_of(format, Unit::mm);
      auto events = decoder->feed(bytes);
      for (const Event& event : decoder->finish()) events.push_back(event);
      RC_ASSERT(bytes_in(events) + ends_in(bytes, format == "line") == bytes.size());
    }));
  }
}

TEST(Framing, GivesTheSameEventsInPiecesOfAnySize) {
  for (const std::string format : {"line", "bcd13", "bin24"}) {
    EXPECT_TRUE(rc::check([&format] {
      const auto bytes = any_stream();
      std::vector<std::string> whole, pieces;
      const auto first = decoder_of(format, Unit::mm), second = decoder_of(format, Unit::mm);
      for (const Event& event : first->feed(bytes)) whole.push_back(line_of(event));
      for (std::size_t at = 0; at < bytes.size();) {
        const auto most = bytes.size() - at;
        const auto size = std::min(most, *rc::gen::inRange<std::size_t>(1, 500));
        for (const Event& event : second->feed(std::span(bytes).subspan(at, size))) pieces.push_back(line_of(event));
        at += size;
      }
      RC_ASSERT(whole == pieces);
    }));
  }
}

}  // namespace
}  // namespace tenth::drivers
