#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <utility>

#include "drivers/burst.hpp"
#include "tests/drivers/recording.hpp"
#include "tests/drivers/shipped.hpp"

namespace tenth::drivers {
namespace {

using Lines = std::vector<std::string>;
constexpr std::int64_t ms = 1'000'000;

/// What happens to a decoder: bytes from the gauge, a question to it, a pause that ends a frame, or that the time for
/// an answer is over.
struct Step {
  enum class Kind { bytes, question, pause, too_late } kind = Kind::bytes;
  std::int64_t at_ns = 0;
  std::vector<Received> bytes = {};
};
using Kind = Step::Kind;

/// The crossings with what their times mean (schema/profile.md): a pause of `silence_ms`, no answer `within_ms`.
std::vector<Step> steps_of(const Recording& recording) {
  const std::int64_t silence_ns = recording.profile.frame.silence_ms * ms,
                     within_ns = recording.profile.trigger.within_ms * ms;
  std::optional<std::int64_t> asked_ns, heard_ns;
  std::vector<Step> steps;
  for (const Crossing& crossing : recording.crossings) {
    if (silence_ns > 0 && heard_ns && crossing.at_ns - *heard_ns >= silence_ns)
      steps.push_back({Kind::pause, *heard_ns + silence_ns});
    if (asked_ns && crossing.at_ns - *asked_ns >= within_ns)
      steps.push_back({Kind::too_late, *std::exchange(asked_ns, {}) + within_ns});
    if (crossing.asked) asked_ns = crossing.at_ns;
    heard_ns = crossing.asked ? std::nullopt : std::optional(crossing.at_ns);
    steps.push_back({crossing.asked ? Kind::question : Kind::bytes, crossing.at_ns, crossing.bytes});
  }
  return steps;
}

/// As `steps`, but bytes with neither a question nor a pause between them come at once.
std::vector<Step> joined(const std::vector<Step>& steps) {
  std::vector<Step> fewer;
  for (const Step& step : steps)
    if (step.kind == Kind::bytes && !fewer.empty() && fewer.back().kind == Kind::bytes)
      fewer.back().bytes.insert(fewer.back().bytes.end(), step.bytes.begin(), step.bytes.end());
    else
      fewer.push_back(step);
  return fewer;
}

std::size_t bytes_in(const std::vector<Step>& steps) {
  std::size_t bytes = 0;
  for (const Step& step : steps) bytes += step.kind == Kind::bytes ? step.bytes.size() : 0;
  return bytes;
}

/// As `steps`, each of them no longer than to the next place of `ends`, counted from the first byte of all.
std::vector<Step> split(const std::vector<Step>& steps, const std::vector<std::size_t>& ends) {
  std::vector<Step> more;
  std::size_t at = 0;
  for (const Step& step : steps) {
    more.push_back({step.kind, step.at_ns, step.kind == Kind::bytes ? std::vector<Received>() : step.bytes});
    if (step.kind != Kind::bytes) continue;
    for (const Received received : step.bytes) {
      if (std::find(ends.begin(), ends.end(), at++) != ends.end()) more.push_back({step.kind, step.at_ns});
      more.back().bytes.push_back(received);
    }
  }
  return more;
}

/// A decoder, and what it says to a recording.
class Replayed {
 public:
  explicit Replayed(const Recording& recording)
      : recording_(recording), decoder_(make_decoder(recording.profile, recording.unit, recording.wire)) {
    burst_.opened(recording.waited);
  }

  Lines of(const std::vector<Step>& steps) {
    for (const Step& step : steps) take(step);
    add(decoder_->finish(), steps.back().at_ns + Burst::kPause_ns);
    return lines_;
  }

 private:
  void take(const Step& step) {
    if (step.kind == Kind::bytes) return add(decoder_->feed(step.bytes), step.at_ns);
    if (step.kind == Kind::pause) return add(decoder_->silence(), step.at_ns);
    if (step.kind == Kind::question) return ask(text_of(step.bytes));
    if (!std::exchange(open_, false)) return;
    std::vector<Event> broken_off = decoder_->silence();
    if (broken_off.empty()) broken_off.emplace_back(Fault{FaultReason::silent, "", "", 0});
    for (const Event& event : broken_off) lines_.push_back(line_of(event));
  }

  /// The first question of a recording may be the tenth of its gauge: they are numbered.
  void ask(const std::string& question) {
    constexpr int kNumbers = 65'536;
    open_ = true;
    for (int i = 0; i < kNumbers; ++i)
      if (decoder_->ask() == question) return;
    lines_.push_back("never asks that");
  }

  /// The first answer closes the question, but not one to a question before (daemon/ports/port_session.cpp).
  void close_question(const Event& event) {
    const auto* const fault = std::get_if<Fault>(&event);
    open_ = open_ && fault != nullptr && fault->stale;
  }

  void add(std::vector<Event> events, std::int64_t at_ns) {
    for (const Event& event : events) close_question(event);
    for (const Judged& judged : burst_.take(std::move(events), at_ns, whole_by_length(recording_.profile)))
      lines_.push_back(line_of(judged.event) + (judged.damaged ? " damaged" : ""));
  }

  const Recording& recording_;
  const std::unique_ptr<Decoder> decoder_;
  Burst burst_;
  Lines lines_;
  bool open_ = false;  ///< a question
};

Lines without_marks(Lines lines) {
  for (std::string& line : lines) line = line.substr(0, line.find(" damaged"));
  return lines;
}

class Replay : public testing::TestWithParam<std::filesystem::path> {
 protected:
  /// What a number may have lost depends on when it came: only the replay in time says so.
  Lines in_pieces(const std::vector<std::size_t>& ends) const {
    return without_marks(Replayed(recording_).of(split(joined(steps_), ends)));
  }

  const Recording recording_ = read_recording(GetParam());
  const std::vector<Step> steps_ = steps_of(recording_);
  const Lines expected_ = read_expected(std::filesystem::path(GetParam()).replace_extension(".expected"));
};

TEST_P(Replay, GivesWhatIsExpectedWhenItArrivesAsRecorded) {
  EXPECT_EQ(Replayed(recording_).of(steps_), expected_);
}

TEST_P(Replay, GivesTheSameWhole) {
  EXPECT_EQ(in_pieces({}), without_marks(expected_));
}

TEST_P(Replay, GivesTheSameByteByByte) {
  std::vector<std::size_t> everywhere(bytes_in(steps_));
  for (std::size_t i = 0; i < everywhere.size(); ++i) everywhere[i] = i;
  EXPECT_EQ(in_pieces(everywhere), without_marks(expected_));
}

TEST_P(Replay, GivesTheSameSplitAtEveryPosition) {
  for (std::size_t at = 0; at <= bytes_in(steps_); ++at)
    EXPECT_EQ(in_pieces({at}), without_marks(expected_)) << "split at " << at;
}

std::string name_of(const testing::TestParamInfo<std::filesystem::path>& info) {
  return info.param.stem();
}

INSTANTIATE_TEST_SUITE_P(Line, Replay, testing::ValuesIn(recordings_of("line")), name_of);
INSTANTIATE_TEST_SUITE_P(Bcd13, Replay, testing::ValuesIn(recordings_of("bcd13")), name_of);
INSTANTIATE_TEST_SUITE_P(Bin24, Replay, testing::ValuesIn(recordings_of("bin24")), name_of);
INSTANTIATE_TEST_SUITE_P(Query, Replay, testing::ValuesIn(recordings_of("query")), name_of);
INSTANTIATE_TEST_SUITE_P(Keys, Replay, testing::ValuesIn(recordings_of("keys")), name_of);
INSTANTIATE_TEST_SUITE_P(Modbus, Replay, testing::ValuesIn(recordings_of("modbus")), name_of);

TEST(Recordings, AreAtLeastSixtyAndSixForEachFormat) {
  std::size_t all = 0;
  for (const std::string folder : {"line", "bcd13", "bin24", "query", "keys", "modbus"}) {
    EXPECT_GE(recordings_of(folder).size(), 6U) << folder;
    all += recordings_of(folder).size();
  }
  EXPECT_GE(all, 60U);
}

TEST(Recordings, SayHowTheyWereMade) {
  for (const std::string folder : {"line", "bcd13", "bin24", "query", "keys", "modbus"})
    for (const auto& path : recordings_of(folder)) {
      std::ifstream file(path);
      const std::string text{std::istreambuf_iterator<char>(file), {}};
      const bool by_hand = text.find("\n# made by hand from the format description, ") != std::string::npos;
      const bool by_simulator = text.find("\n# made by the simulators: ") != std::string::npos;
      EXPECT_NE(by_hand, by_simulator) << path;
    }
}

}  // namespace
}  // namespace tenth::drivers
