#pragma once

#include <map>
#include <optional>

#include "cli/speak/child.hpp"
#include "cli/speak/helpers.hpp"

namespace tenth::cli {

/// Plays, speaks and shows, and never lags: what is new cuts off what is being said, unless that is of a higher rank;
/// then it waits, and only the newest of the highest rank does. Tones never wait. A program that hangs is killed.
class Mouth {
 public:
  struct Limits {
    Child::Clock::duration tone = std::chrono::seconds(3), speech = std::chrono::seconds(20),
                           notice = std::chrono::seconds(5);
  };
  explicit Mouth(Helpers helpers) : Mouth(std::move(helpers), Limits{}) {}
  Mouth(Helpers helpers, Limits limits);
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
  void show();
  void hush();

  Helpers helpers_;
  Limits limits_;
  int nothing_;                 ///< /dev/null, to read from
  std::map<Sound, int> tones_;  ///< each a WAV file without a name
  std::optional<Child> tone_, speech_, notice_;
  Rank tone_rank_ = Rank::word, speech_rank_ = Rank::word;
  std::optional<Waiting> waiting_;
  std::optional<Notice> unshown_;  ///< all that wait, a line each
};

}  // namespace tenth::cli
