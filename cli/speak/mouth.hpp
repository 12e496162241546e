#pragma once

#include <functional>
#include <map>
#include <optional>

#include "cli/speak/child.hpp"
#include "cli/speak/helpers.hpp"

namespace tenth::cli {

/// Plays, speaks and shows, and never lags: what is new cuts off what is being said, unless that is of a higher rank;
/// then it waits, and only the newest of the highest rank does. Tones never wait. A program that hangs is killed. A
/// voice that fails is given up for the next, if there is one.
class Mouth {
 public:
  struct Limits {
    Child::Clock::duration tone = std::chrono::seconds(3), speech = std::chrono::seconds(20),
                           notice = std::chrono::seconds(5);
  };
  /// Called with the program that failed and the one that speaks from now on.
  using GivenUp = std::function<void(const std::string& program, const std::string& next)>;

  explicit Mouth(Helpers helpers, GivenUp given_up = {}) : Mouth(std::move(helpers), Limits{}, std::move(given_up)) {}
  Mouth(Helpers helpers, Limits limits, GivenUp given_up = {});
  ~Mouth();
  Mouth(const Mouth&) = delete;
  Mouth& operator=(const Mouth&) = delete;

  void say(const Utterance& utterance);
  /// Goes on with what waits; true while something runs or waits, and this has to be called again soon.
  bool goes_on();

 private:
  struct Waiting {
    Rank rank;
    std::string text;
  };
  void play(Rank rank, Sound sound);
  void speak();
  void start_speaking(Waiting what);
  bool speaks();
  void give_up_voice();
  void show();
  void hush();

  Helpers helpers_;
  Limits limits_;
  GivenUp given_up_;
  int nothing_;                 ///< /dev/null, to read from
  std::map<Sound, int> tones_;  ///< each a WAV file without a name
  std::optional<Child> tone_, speech_, notice_;
  Rank tone_rank_ = Rank::word;
  Waiting said_{Rank::word, ""};  ///< what is being spoken
  std::optional<Waiting> waiting_;
  std::optional<Notice> unshown_;  ///< all that wait, a line each
};

}  // namespace tenth::cli
