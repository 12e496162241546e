#include "daemon/desk.hpp"

#include <spdlog/spdlog.h>

#include <algorithm>
#include <boost/asio/post.hpp>
#include <chrono>

#include "daemon/acts/standing.hpp"
#include "daemon/events.hpp"
#include "schema/json/time.hpp"

namespace tenth {
namespace {

using std::chrono::milliseconds;

constexpr std::size_t kMostInBatch = 512;
constexpr std::int64_t kClockStep_us = 1'000'000;
constexpr std::int64_t kMinute_ns = 60'000'000'000;
constexpr int kRefusalsAMinute = 10;

}  // namespace

Desk::Desk(Setup setup)
    : setup_(std::move(setup)),
      decided_(setup_.bench),
      stored_(std::move(setup_.bench)),
      head_hash_(setup_.head_hash),
      boot_(setup_.clock->boot()),
      retry_(setup_.loop),
      expiry_(setup_.loop) {
  const Instant now = setup_.clock->now();
  clock_offset_us_ = now.wall_us - now.mono_ns / 1000;
}

void Desk::listen(std::function<void(const Json&, std::int64_t)> on_event, std::function<void(const Entry&)> on_entry) {
  on_event_ = std::move(on_event);
  on_entry_ = std::move(on_entry);
  watch_waiting();
}

void Desk::tell(const Json& event) const {
  if (on_event_) on_event_(event, 0);
}

View Desk::view() const {
  return {stored_,
          live_,
          pedals_,
          setup_.clock->now(),
          head_hash_,
          happenings_.size() + commands_.size() + batch_.entries.size(),
          setup_.free_bytes(),
          setup_.in_session};
}

void Desk::command(Actor actor, Act act, Json params, std::string method, Answer answer) {
  if (failing_) return answer(tl::unexpected(not_stored("the ledger cannot be written now")));
  commands_.push_back({std::move(actor), act, std::move(params), std::move(method), std::move(answer)});
  wake();
}

void Desk::happen(const std::string& via, Happening happening) {
  happenings_.push_back({via, std::move(happening)});
  wake();
}

/// A frame belongs to the place on disk when its last byte came: a command still under way does not touch it.
void Desk::frame(Frame frame, std::function<void(std::int64_t)> decided_as) {
  if (const Before* const before = changed_under_way(frame.gauge)) frame.before = *before;
  happen("gauge", [frame = std::move(frame), decided_as = std::move(decided_as)](Draft& draft) {
    decided_as(take_frame(draft, frame));
  });
}

void Desk::remember_before() {
  for (const auto& [name, gauge] : decided_.gauges) batch_.before[name] = {standing_of(decided_, name), gauge.awaited};
}

/// What stood for a gauge before a command that is under way changed it; nothing where none did.
const Before* Desk::changed_under_way(const std::string& gauge) const {
  const auto found = batch_.before.find(gauge);
  if (!under_way_ || found == batch_.before.end()) return nullptr;
  const auto& awaited = decided_.gauges.at(gauge).awaited;
  const bool same_place = standing_of(decided_, gauge).seq == found->second.standing.seq;
  const bool same_wait = (awaited ? awaited->seq : 0) == (found->second.awaited ? found->second.awaited->seq : 0);
  return same_place && same_wait ? nullptr : &found->second;
}

/// Once in this turn of the loop, after everything that is ready now has been handed in.
void Desk::wake() {
  if (woken_ || under_way_ || failing_) return;
  woken_ = true;
  boost::asio::post(setup_.loop, [this] {
    woken_ = false;
    pump();
  });
}

Draft Desk::draft(Actor actor) {
  return {decided_, std::move(actor), setup_.clock->now(), boot_, setup_.rules, live_};
}

void Desk::collect(Draft& draft) {
  tell_alerts(draft);
  for (Entry& entry : draft.take()) batch_.entries.push_back(std::move(entry));
}

void Desk::pump() {
  if (under_way_) return;
  batch_ = {};
  batch_.clock_offset_us = clock_offset_us_;
  if (!happenings_.empty() || !commands_.empty()) check_clock();
  for (std::size_t n = 0; n < kMostInBatch && !happenings_.empty(); ++n) {
    batch_.happenings.push_back(std::move(happenings_.front()));
    happenings_.pop_front();
    decide({setup_.self.user, setup_.self.uid, batch_.happenings.back().via}, batch_.happenings.back().happening);
  }
  // A command never overtakes a frame.
  if (!commands_.empty()) remember_before();
  for (std::size_t n = 0; n < kMostInBatch && happenings_.empty() && !commands_.empty(); ++n) {
    Command command = std::move(commands_.front());
    commands_.pop_front();
    decide_command(std::move(command));
  }
  if (batch_.entries.empty()) {
    failing_ = false;  // nothing waits for the disk
    answer_all(std::move(batch_.answers));
    if (!happenings_.empty() || !commands_.empty()) return wake();
    if (when_idle_) std::exchange(when_idle_, nullptr)(true);
    return;
  }
  send();
}

void Desk::send() {
  std::vector<std::string> bodies;
  bodies.reserve(batch_.entries.size());
  for (const Entry& entry : batch_.entries) bodies.push_back(canonical(entry.body));
  under_way_ = true;
  setup_.append(std::move(bodies), [this](Result<std::vector<Digest>> hashes) { on_stored(std::move(hashes)); });
  // While the disk works: `decided_` is the state just after the last entry until the disk has answered.
  if (on_event_) batch_.last_told = events_of(decided_, batch_.entries.back());
}

void Desk::decide(Actor actor, const Happening& happening) {
  Draft draft = this->draft(std::move(actor));
  happening(draft);
  collect(draft);
}

void Desk::decide_command(Command command) {
  Draft draft = this->draft(command.actor);
  Decided decided = command.act(draft, command.params);
  if (!decided) note_refusal(command, decided.error());
  collect(draft);
  batch_.answers.push_back({std::move(command.answer), std::move(decided)});
}

/// Every refusal is an entry, ten a minute for each reason; the rest is counted in the next one.
void Desk::note_refusal(const Command& command, const Refusal& refusal) {
  auto& [began_ns, count] = refusals_[refusal.code];
  const std::int64_t now_ns = setup_.clock->now().mono_ns;
  int held = 0;
  if (count == 0 || now_ns - began_ns >= kMinute_ns) {
    held = std::max(0, count - kRefusalsAMinute);
    began_ns = now_ns;
    count = 0;
  }
  if (++count > kRefusalsAMinute) return;
  Draft draft = this->draft(command.actor);
  draft.append("refused",
               {{"method", command.method}, {"code", refusal.code}, {"message", refusal.message}, {"held", held}});
  collect(draft);
}

/// Someone set the clock, or it was set for the first time since power came: said in the ledger before what follows.
void Desk::check_clock() {
  const Instant now = setup_.clock->now();
  const std::int64_t offset_us = now.wall_us - now.mono_ns / 1000;
  const std::int64_t step_us = offset_us - clock_offset_us_;
  if (step_us < kClockStep_us && step_us > -kClockStep_us) return;
  clock_offset_us_ = offset_us;
  Draft draft = this->draft({setup_.self.user, setup_.self.uid, "daemon"});
  draft.append("clock", {{"step_us", step_us}});
  collect(draft);
}

void Desk::on_stored(Result<std::vector<Digest>> hashes) {
  if (!hashes) return on_refused(hashes.error());
  under_way_ = false;
  if (std::exchange(failing_, false)) spdlog::info("the ledger takes entries again; what waited is stored");
  publish(*hashes);
  answer_all(std::move(batch_.answers));
  batch_ = {};
  watch_waiting();
  pump();
}

void Desk::publish(const std::vector<Digest>& hashes) {
  for (std::size_t i = 0; i < batch_.entries.size(); ++i) {
    Entry& entry = batch_.entries[i];
    entry.hash = head_hash_ = hex(hashes[i]);
    apply(stored_, entry);
    if (on_entry_) on_entry_(entry);
    if (!on_event_) continue;
    const bool last = i + 1 == batch_.entries.size();
    std::vector<Json> events = last ? std::move(batch_.last_told) : events_of(stored_, entry);
    for (Json& event : events) {
      if (event.contains("hash")) event["hash"] = entry.hash;  // what is made while the disk works has none yet
      on_event_(event, entry.seq);
    }
  }
}

void Desk::answer_all(std::vector<Answered> answers) {
  for (Answered& answered : answers) {
    if (answered.decided)
      answered.answer((*answered.decided)(view()));
    else
      answered.answer(tl::unexpected(answered.decided.error()));
  }
}

/// A gauge that is awaited on its master for too long is awaited no more.
void Desk::watch_waiting() {
  std::int64_t soonest_us = 0;
  for (const auto& [name, gauge] : stored_.gauges)
    if (gauge.awaited && gauge.awaited->study.empty()) {
      const std::int64_t until_us = wall_us_from(gauge.awaited->time).value_or(0) + kAwait_us;
      soonest_us = soonest_us == 0 ? until_us : std::min(soonest_us, until_us);
    }
  if (soonest_us == 0) return expiry_.expires_at(boost::asio::steady_timer::time_point::max()), void();
  const std::int64_t left_us = std::max<std::int64_t>(0, soonest_us - setup_.clock->now().wall_us);
  expiry_.expires_after(std::chrono::microseconds(left_us) + milliseconds(1));
  expiry_.async_wait([this](const boost::system::error_code& error) {
    if (error) return;
    happen("daemon", [this](Draft& draft) {
      std::vector<std::string> late;
      for (const auto& [name, gauge] : draft.bench().gauges)
        if (gauge.awaited && waited_too_long(*gauge.awaited, draft.now())) late.push_back(name);
      for (const std::string& name : late) draft.append("await_end", {{"gauge", name}, {"why", "120 s"}});
      if (late.empty()) watch_waiting();  // the clock was set back meanwhile
    });
  });
}

void Desk::when_idle(std::function<void(bool)> then) {
  when_idle_ = std::move(then);
  if (failing_) return std::exchange(when_idle_, nullptr)(false);
  wake();
}

}  // namespace tenth
