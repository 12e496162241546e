// A million frames of each format through a disturbed wire: what becomes of them (tests/drivers/noise.md).
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <bit>
#include <cstdio>
#include <fstream>
#include <functional>
#include <random>

#include "rules/plausible.hpp"
#include "tests/drivers/recording.hpp"
#include "tests/drivers/shipped.hpp"

namespace tenth::drivers {
namespace {

constexpr int kFrames = 1'000'000;
constexpr std::uint64_t kOneIn = 64;  // so many bytes is one disturbed
constexpr std::int64_t um = 1'000'000;

/// A gauge of a format, from the format descriptions: the frame of so many tenths of a micrometre.
struct Gauge {
  std::string profile;
  std::function<std::string(int)> frame;
  int step = 1;  ///< the least it shows
  friend void PrintTo(const Gauge& gauge, std::ostream* out) { *out << gauge.profile; }
};

std::string printed(const char* format, int a, int b) {
  std::array<char, 40> text{};
  std::snprintf(text.data(), text.size(), format, a, b);
  return text.data();
}

std::string with_point(int tenths, const char* end) {
  return printed("%d.%04d", tenths / 10'000, tenths % 10'000) + end;
}

/// Bit by bit, as the standard has it (Modbus over Serial Line V1.02, 6.2.2).
std::string with_check(std::string message) {
  unsigned crc = 0xFFFF;
  for (const char c : message) {
    crc ^= static_cast<unsigned char>(c);
    for (int bit = 0; bit < 8; ++bit) crc = (crc & 1U) != 0 ? (crc >> 1U) ^ 0xA001U : crc >> 1U;
  }
  return message + static_cast<char>(crc & 0xFFU) + static_cast<char>(crc >> 8U);
}

std::string answer(int tenths) {
  const auto bits = std::bit_cast<std::uint32_t>(static_cast<float>(tenths) / 10'000.0F);
  std::string message = "\x01\x04\x04";
  for (unsigned shift : {24U, 16U, 8U, 0U}) message.push_back(static_cast<char>(bits >> shift & 0xFFU));
  return with_check(message);
}

const std::array kGauges{
    Gauge{"line", [](int tenths) { return with_point(tenths, "\r\n"); }},
    Gauge{"bcd13", [](int tenths) { return printed("FFFF0%06d%d0\r", tenths, 4); }},
    Gauge{"bin24", [](int tenths) { return printed("%06X%c", tenths / 100, '\r'); }, 100},
    Gauge{"query", [](int tenths) { return printed("%d.%05dE+01\r\n", tenths / 100'000, tenths % 100'000); }},
    Gauge{"modbus", answer},
    Gauge{"keys", [](int tenths) { return with_point(tenths, "\n"); }},
};

/// Flipped bits, dropped and doubled bytes, one as often as the other. The engine is the same on every machine; the
/// distributions of the standard library are not.
class Disturbance {
 public:
  std::uint64_t below(std::uint64_t bound) { return engine_() % bound; }
  std::string disturbed(const std::string& frame) {
    std::string bytes;
    for (const char c : frame) {
      const std::uint64_t what = below(kOneIn) == 0 ? below(3) : 3;
      if (what == 0) bytes.push_back(static_cast<char>(static_cast<unsigned char>(c) ^ (1U << below(8))));
      if (what == 2) bytes.push_back(c);
      if (what >= 2) bytes.push_back(c);
    }
    return bytes;
  }

 private:
  std::mt19937_64 engine_{83'0104};
};

/// A bore of 83.000 to 83.030 mm with all its checks as they are by default.
Feature bore() {
  Feature feature;
  feature.kind = Kind::inside;
  feature.limits = {Length::from_um(83'000), Length::from_um(83'030)};
  return feature;
}

/// Frames by what became of them; `wrong` are held by the first that speaks against them, or by nothing.
struct Tally {
  int right = 0, refused = 0, wrong = 0, by_window = 0, by_repeat = 0, unseen = 0;
  Length worst;  ///< error that nothing holds

  std::string row(const std::string& format) const {
    std::string text = "| " + format;
    for (const int count : {right, refused, wrong, by_window, by_repeat, unseen}) text += " | " + std::to_string(count);
    return text + " | " + exact_mm(worst) + " mm |";
  }
};

class Trial {
 public:
  explicit Trial(const Gauge& gauge) : gauge_(gauge), decoder_(decoder_of(gauge.profile, Unit::mm)) {}

  Tally run() {
    for (int i = 0; i < kFrames; ++i) {
      const int tenths =
          830'000 + gauge_.step * static_cast<int>(noise_.below(static_cast<std::uint64_t>(300 / gauge_.step + 1)));
      judge(events_of(gauge_.frame(tenths)), Length::from_pm(tenths * um / 10));
    }
    return tally_;
  }

 private:
  /// Frames come a second apart. What is asked for and does not come in time is given up.
  std::vector<Event> events_of(const std::string& frame) {
    const bool asked = !decoder_->ask().empty();
    std::vector<Event> events = decoder_->feed(sound(noise_.disturbed(frame)));
    if (asked && events.empty()) events = decoder_->silence();
    return events;
  }

  void judge(const std::vector<Event>& events, Length sent) {
    const Measurement* wrong = nullptr;
    bool right = false;
    for (const Event& event : events)
      if (const auto* const read = std::get_if<Measurement>(&event)) {
        if (read->value == sent) right = true;
        if (read->value != sent) wrong = read;
      }
    if (wrong != nullptr) {
      judge_wrong(wrong->value, sent);
    } else {
      ++(right ? tally_.right : tally_.refused);
    }
  }

  /// The place was read before, within 2 µm of what it has now.
  void judge_wrong(Length read, Length sent) {
    const Length before = sent + Length::from_pm((static_cast<std::int64_t>(noise_.below(41)) - 20) * um / 10);
    const std::vector<Doubt> doubts = doubts_of_size(bore_, read, before);
    const auto speaks = [&](Doubt doubt) { return std::find(doubts.begin(), doubts.end(), doubt) != doubts.end(); };
    ++tally_.wrong;
    ++(speaks(Doubt::range) ? tally_.by_window : speaks(Doubt::repeat) ? tally_.by_repeat : tally_.unseen);
    if (doubts.empty()) tally_.worst = std::max(tally_.worst, (read - sent).magnitude());
  }

  const Gauge& gauge_;
  const Feature bore_ = bore();
  std::unique_ptr<Decoder> decoder_;
  Disturbance noise_;
  Tally tally_;
};

std::string page() {
  std::ifstream file(TENTH_SOURCE_DIR "/tests/drivers/noise.md");
  return {std::istreambuf_iterator<char>(file), {}};
}

class Noise : public testing::TestWithParam<Gauge> {};

TEST_P(Noise, OfAMillionFramesGivesWhatThePageSays) {
  const Tally tally = Trial(GetParam()).run();
  const std::string row = tally.row(GetParam().profile);
  std::printf("%s\n", row.c_str());
  EXPECT_EQ(tally.right + tally.refused + tally.wrong, kFrames);
  EXPECT_EQ(tally.by_window + tally.by_repeat + tally.unseen, tally.wrong);
  EXPECT_NE(page().find("\n" + row + "\n"), std::string::npos) << "tests/drivers/noise.md has not the row\n" << row;
}

INSTANTIATE_TEST_SUITE_P(Formats, Noise, testing::ValuesIn(kGauges),
                         [](const auto& each) { return each.param.profile; });

}  // namespace
}  // namespace tenth::drivers
