#pragma once

#include <boost/asio/any_io_executor.hpp>
#include <boost/asio/steady_timer.hpp>
#include <chrono>
#include <deque>
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "daemon/acts/acts.hpp"
#include "daemon/acts/intake.hpp"
#include "daemon/clock.hpp"
#include "daemon/draft.hpp"
#include "daemon/view.hpp"
#include "schema/ledger/fold.hpp"
#include "schema/store/store_thread.hpp"

namespace tenth {

/// Where everything that happens is decided, in order, stored, and only then told. One batch is under way at a time:
/// what comes meanwhile waits and becomes the next (group commit).
///
/// Two states: `decided_` has what was decided, `stored_` what the disk has. Questions see `stored_`; events follow it.
/// When the disk refuses, `decided_` goes back to `stored_`, commands are refused, and frames wait, with their bytes
/// and times, to be decided again in the same order. Where it is not known whether a batch reached the disk, what was
/// decided stays: the batch is appended again as it is, until it is stored, and its commands are told so.
class Desk {
 public:
  using Act = Decided (*)(Draft&, const Json&);
  using Answer = std::function<void(Result<Json>)>;
  using Happening = std::function<void(Draft&)>;

  /// Frames that wait while the disk refuses; past that ports are read no further.
  static constexpr std::size_t kMostWaiting = 10'000;

  static constexpr std::chrono::milliseconds kAskAgain{1000};

  struct Setup {
    boost::asio::any_io_executor loop;
    /// One batch at a time; it answers in a later turn of the loop.
    std::function<void(std::vector<std::string>, StoreThread::Stored)> append;
    Bench bench;
    std::string head_hash;
    const Clock* clock = nullptr;
    IntakeRules rules;
    Actor self;                                       ///< the daemon's own user
    std::function<std::uint64_t()> free_bytes;        ///< of the ledger's disk
    std::chrono::milliseconds ask_again = kAskAgain;  ///< a disk that refused
    InSession in_session = {};
  };
  explicit Desk(Setup setup);

  /// A command from the socket: answered once what it decided is on disk.
  void command(Actor actor, Act act, Json params, std::string method, Answer answer);
  /// What a gauge did: never refused, never lost.
  void happen(const std::string& via, Happening happening);
  /// A gauge's frame. `decided_as` gets what `take_frame` made of it when that is decided, before the disk has it, and
  /// again after the disk refused: what was said before is void then.
  void frame(Frame frame, std::function<void(std::int64_t)> decided_as);

  bool has_room() const { return happenings_.size() < kMostWaiting; }
  View view() const;
  /// The state on disk alone.
  const Bench& bench() const { return stored_; }
  const Clock& clock() const { return *setup_.clock; }
  /// The live side of a gauge: the session keeps it.
  LiveGauge& live(const std::string& gauge) { return live_[gauge]; }
  LivePedal& live_pedal(const std::string& pedal) { return pedals_[pedal]; }

  /// Who hears of events (with the seq they belong to; 0: of no entry) and of entries, after the commit.
  void listen(std::function<void(const Json& event, std::int64_t seq)> on_event,
              std::function<void(const Entry&)> on_entry);
  /// Tells an event that no entry holds, such as `not_stored`.
  void tell(const Json& event) const;

  /// Calls `then` (true: all is stored) once nothing waits any more, or the disk has refused.
  void when_idle(std::function<void(bool)> then);

 private:
  struct Command {
    Actor actor;
    Act act;
    Json params;
    std::string method;
    Answer answer;
  };
  struct Waiting {
    std::string via;
    Happening happening;
  };
  struct Answered {
    Answer answer;
    Decided decided;
  };
  struct Batch {
    std::vector<Waiting> happenings;
    std::vector<Answered> answers;
    std::vector<Entry> entries;
    std::vector<Json> last_told;           ///< the events of the last entry
    std::map<std::string, Before> before;  ///< of every gauge, as it stood before the commands of the batch
    std::int64_t clock_offset_us = 0;      ///< as it stood before the batch
  };

  void wake();
  void pump();
  void send();
  void decide(Actor actor, const Happening& happening);
  void decide_command(Command command);
  void note_refusal(const Command& command, const Refusal& refusal);
  void check_clock();
  void remember_before();
  const Before* changed_under_way(const std::string& gauge) const;
  void on_stored(Result<std::vector<Digest>> hashes);
  void publish(const std::vector<Digest>& hashes);
  static Refusal not_stored(const std::string& why);
  void on_refused(const Refusal& refusal);
  void take_back(const Refusal& refusal);
  void tell_refused(const Refusal& refusal);
  void retry_later();
  void answer_all(std::vector<Answered> answers);
  void watch_waiting();
  Draft draft(Actor actor);
  void collect(Draft& draft);

  Setup setup_;
  Bench decided_, stored_;
  LiveGauges live_;
  LivePedals pedals_;
  std::deque<Waiting> happenings_;
  std::deque<Command> commands_;
  Batch batch_;
  bool under_way_ = false, failing_ = false, woken_ = false;
  std::string head_hash_, boot_;
  std::int64_t clock_offset_us_ = 0;
  std::int64_t last_told_ns_ = 0;                                 ///< of `not_stored`
  std::map<std::string, std::pair<std::int64_t, int>> refusals_;  ///< by code: start of the minute, how many in it
  boost::asio::steady_timer retry_, expiry_;
  std::function<void(const Json&, std::int64_t)> on_event_;
  std::function<void(const Entry&)> on_entry_;
  std::function<void(bool)> when_idle_;
};

}  // namespace tenth
