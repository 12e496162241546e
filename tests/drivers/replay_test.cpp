#include <gtest/gtest.h>

#include "drivers/burst.hpp"
#include "tests/drivers/recording.hpp"
#include "tests/drivers/shipped.hpp"

namespace tenth::drivers {
namespace {

using Lines = std::vector<std::string>;

std::string without_mark(const std::string& line) {
  const auto mark = line.find(" damaged");
  return line.substr(0, mark);
}

void add(Lines& lines, const std::vector<Event>& events) {
  for (const Event& event : events) lines.push_back(line_of(event));
}

/// All bytes in pieces that end at the positions given.
Lines replay(const Profile& format, const Recording& recording, const std::vector<std::size_t>& ends) {
  const auto decoder = make_decoder(format, recording.unit, Wire::serial);
  const auto bytes = all_bytes(recording);
  Lines lines;
  std::size_t from = 0;
  for (const std::size_t end : ends) {
    add(lines, decoder->feed(std::span(bytes).subspan(from, end - from)));
    from = end;
  }
  add(lines, decoder->feed(std::span(bytes).subspan(from)));
  add(lines, decoder->finish());
  return lines;
}

Lines events_expected(const std::filesystem::path& path) {
  Lines lines;
  for (const auto& line : read_expected(path)) lines.push_back(without_mark(line));
  return lines;
}

/// As it arrived, with what the burst says of each number.
Lines replay_in_time(const Profile& format, const Recording& recording) {
  const auto decoder = make_decoder(format, recording.unit, Wire::serial);
  Burst burst;
  burst.opened(recording.waited);
  Lines lines;
  const auto take = [&](std::vector<Event> events, std::int64_t at_ns) {
    for (const Judged& judged : burst.take(std::move(events), at_ns, whole_by_length(format))) {
      lines.push_back(line_of(judged.event) + (judged.damaged ? " damaged" : ""));
    }
  };
  for (const Arrival& arrival : recording.arrivals) take(decoder->feed(arrival.bytes), arrival.at_ns);
  take(decoder->finish(), recording.arrivals.back().at_ns + Burst::kPause_ns);
  return lines;
}

class Replay : public testing::TestWithParam<std::filesystem::path> {
 protected:
  const std::filesystem::path path_ = GetParam();
  const std::filesystem::path expected_ = std::filesystem::path(path_).replace_extension(".expected");
  const Profile format_ = shipped(path_.parent_path().filename());
  const Recording recording_ = read_recording(path_);
};

TEST_P(Replay, GivesWhatIsExpectedWhenItArrivesAsRecorded) {
  EXPECT_EQ(replay_in_time(format_, recording_), read_expected(expected_));
}

TEST_P(Replay, GivesTheSameWhole) {
  EXPECT_EQ(replay(format_, recording_, {}), events_expected(expected_));
}

TEST_P(Replay, GivesTheSameByteByByte) {
  std::vector<std::size_t> everywhere(all_bytes(recording_).size());
  for (std::size_t i = 0; i < everywhere.size(); ++i) everywhere[i] = i;
  EXPECT_EQ(replay(format_, recording_, everywhere), events_expected(expected_));
}

TEST_P(Replay, GivesTheSameSplitAtEveryPosition) {
  for (std::size_t at = 0; at <= all_bytes(recording_).size(); ++at) {
    EXPECT_EQ(replay(format_, recording_, {at}), events_expected(expected_)) << "split at " << at;
  }
}

std::string name_of(const testing::TestParamInfo<std::filesystem::path>& info) {
  return info.param.stem();
}

INSTANTIATE_TEST_SUITE_P(Line, Replay, testing::ValuesIn(recordings_of("line")), name_of);
INSTANTIATE_TEST_SUITE_P(Bcd13, Replay, testing::ValuesIn(recordings_of("bcd13")), name_of);
INSTANTIATE_TEST_SUITE_P(Bin24, Replay, testing::ValuesIn(recordings_of("bin24")), name_of);

TEST(Recordings, AreAtLeastEightForEachFormat) {
  for (const std::string format : {"line", "bcd13", "bin24"}) EXPECT_GE(recordings_of(format).size(), 8U) << format;
}

}  // namespace
}  // namespace tenth::drivers
