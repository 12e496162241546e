#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "rules/place.hpp"
#include "tests/daemon/workbench.hpp"

namespace tenth {
namespace {

/// What a person with a pencil would do beside the bench: a list of places, a finger on one of them, and the stack of
/// readings at each. It knows nothing of entries or folds.
class Pencil {
 public:
  explicit Pencil(std::vector<Place> places) : places_(std::move(places)) {}

  bool has_left(bool again) const {
    return again || std::ranges::any_of(places_, [this](const Place& place) { return !filled(place); });
  }
  void begin(bool again, std::int64_t now) {
    on_ = true;
    again_ = again;
    began_ = now;
    walk_.clear();
    std::ranges::copy_if(places_, std::back_inserter(walk_),
                         [&](const Place& place) { return again || !filled(place); });
    finger_ = 0;
  }
  void press(std::int64_t seq) {
    stacks_[*finger()].push_back(seq);
    if (on_ && (again_ ? fresh(walk_[finger_]) >= wanted(walk_[finger_]) : filled(walk_[finger_]))) next();
  }
  bool can_go_on() const { return on_ && finger_ < walk_.size(); }
  bool can_go_back() const { return on_ && finger_ > 0; }
  void next() {
    ++finger_;
    while (finger_ < walk_.size() && !again_ && filled(walk_[finger_])) ++finger_;
  }
  void back() { --finger_; }
  /// The reading is rubbed out where it stands, and the finger goes there; off the walk the walk is over.
  void undo(std::int64_t seq, const Place& place) {
    std::erase(stacks_[place], seq);
    const auto at = std::ranges::find(walk_, place);
    on_ = on_ && at != walk_.end();
    if (on_) finger_ = static_cast<std::size_t>(at - walk_.begin());
    alone_ = place;
  }

  std::optional<Place> finger() const {
    if (!on_) return alone_;
    return finger_ < walk_.size() ? std::optional(walk_[finger_]) : std::nullopt;
  }
  const std::map<Place, std::vector<std::int64_t>>& stacks() const { return stacks_; }

 private:
  static int wanted(const Place& place) { return place.feature == "main_journal" ? 2 : 1; }
  bool filled(const Place& place) const {
    const auto found = stacks_.find(place);
    return found != stacks_.end() && static_cast<int>(found->second.size()) >= wanted(place);
  }
  int fresh(const Place& place) const {
    return static_cast<int>(
        std::ranges::count_if(stacks_.at(place), [this](std::int64_t seq) { return seq > began_; }));
  }

  std::vector<Place> places_, walk_;
  std::map<Place, std::vector<std::int64_t>> stacks_;
  std::size_t finger_ = 0;
  std::optional<Place> alone_;  ///< the place, where there is no walk
  std::int64_t began_ = 0;
  bool again_ = false, on_ = false;
};

const char* const kWalk = R"(
unit = "mm"
[layout]
cylinders = 2
mains = 2
[feature.bore]
count = "cylinders"
kind = "inside"
limits = [83.000, 83.035]
levels = ["top", "bottom"]
[feature.main_journal]
count = "mains"
kind = "outside"
limits = [59.980, 60.000]
presses = 2
)";

const char* size_at(const Place& place) {
  return place.feature == "bore" ? "83.010" : "59.990";
}

/// One random sequence of presses, pedals and commands, held against the pencil after every one.
class Walk {
 public:
  explicit Walk(unsigned seed) : random_(seed), pencil_(all_places()) {
    bench_.add_engine("K1", kWalk);
    bench_.add_gauge("any", Json::object());
    begin(false);
  }

  bool step() {
    bench_.pass(1);
    switch (std::uniform_int_distribution(0, 9)(random_)) {
      case 0:
        move_on();
        break;
      case 1:
        move_back();
        break;
      case 2:
        take_back();
        break;
      case 3:
        begin(std::bernoulli_distribution(0.3)(random_));
        break;
      case 4:
        press_wildly();
        break;
      default:
        press();
        break;
    }
    return agree();
  }

 private:
  static std::vector<Place> all_places() {
    return {{"bore", 1, "top", ""},    {"bore", 1, "bottom", ""},   {"bore", 2, "top", ""},
            {"bore", 2, "bottom", ""}, {"main_journal", 1, "", ""}, {"main_journal", 2, "", ""}};
  }

  void begin(bool again) {
    const std::int64_t now = bench_.bench.seq;
    const bool begun = bench_.act(round_begin, {{"again", again}}).has_value();
    EXPECT_EQ(begun, pencil_.has_left(again));
    if (begun) pencil_.begin(again, now);
  }
  void move_on() {
    const bool could = pencil_.can_go_on();
    EXPECT_EQ(bench_.act(round_next, Json::object()).has_value(), could);
    if (could) pencil_.next();
  }
  void move_back() {
    const bool could = pencil_.can_go_back();
    EXPECT_EQ(bench_.act(round_back, Json::object()).has_value(), could);
    if (could) pencil_.back();
  }
  void press() {
    const auto here = pencil_.finger();
    bench_.press("any", here ? size_at(*here) : "83.010");
    const Reading& reading = bench_.last_reading();
    EXPECT_EQ(reading.state == State::kept, here.has_value());
    all_.push_back(reading.seq);
    if (here) pencil_.press(reading.seq);
  }
  /// A lost point: held, and the round stands.
  void press_wildly() {
    bench_.press("any", "8.301");
    EXPECT_EQ(bench_.last_reading().state, State::suspect);
    all_.push_back(bench_.last_reading().seq);
  }
  /// Takes back what came last, whatever it was; the finger goes to its place, where it has one.
  void take_back() {
    EXPECT_EQ(bench_.act(undo, Json::object()).has_value(), !all_.empty());
    if (all_.empty()) return;
    const auto place = find_reading(bench_.bench, all_.back())->place;
    if (place) pencil_.undo(all_.back(), *place);
    all_.pop_back();
  }

  bool agree() {
    std::map<Place, std::vector<std::int64_t>> stacks;
    for (const Reading& reading : bench_.bench.engines.at("K1").readings)
      if (reading.state == State::kept) stacks[*reading.place].push_back(reading.seq);
    auto mine = pencil_.stacks();
    std::erase_if(mine, [](const auto& stack) { return stack.second.empty(); });
    EXPECT_EQ(stacks, mine) << "a reading was skipped, doubled or put elsewhere";
    EXPECT_EQ(bench_.bench.common.place, pencil_.finger()) << "the round stands elsewhere";
    return stacks == mine && bench_.bench.common.place == pencil_.finger();
  }

  std::mt19937 random_;
  Workbench bench_;
  Pencil pencil_;
  std::vector<std::int64_t> all_;  ///< readings that stand, in order
};

/// Ten thousand sequences in all, in runs short enough for a slow machine.
class Walks : public testing::TestWithParam<unsigned> {};

TEST_P(Walks, NeverSkipDoubleOrInventAPlace) {
  constexpr unsigned kSequences = 1000;
  constexpr int kSteps = 12;
  for (unsigned seed = GetParam() * kSequences + 1; seed <= (GetParam() + 1) * kSequences; ++seed) {
    Walk walk(seed);
    for (int step = 0; step < kSteps; ++step) ASSERT_TRUE(walk.step()) << "seed " << seed << ", step " << step;
  }
}

INSTANTIATE_TEST_SUITE_P(Random, Walks, testing::Range(0U, 10U));

}  // namespace
}  // namespace tenth
