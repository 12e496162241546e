#include "daemon/ports/pedals.hpp"

#include <spdlog/spdlog.h>

#include <algorithm>
#include <array>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <chrono>
#include <exception>
#include <string_view>
#include <utility>

#include "schema/json/escape.hpp"

namespace tenth {

namespace {

namespace asio = boost::asio;

constexpr std::chrono::milliseconds kAgain(500);

/// The link of a pedal gives this byte for a key pressed, another for one let go.
constexpr std::uint8_t kDown = 'd';

Profile pedal_profile() {
  Profile profile;
  profile.speaks = Speaks::pedal;
  return profile;
}

constexpr std::array<std::pair<std::string_view, Desk::Act>, 5> kActs = {
    {{"take", take}, {"next", round_next}, {"back", round_back}, {"undo", undo}, {"yes", answer_yes}}};

}  // namespace

Result<Desk::Act> pedal_act(const std::string& word) {
  const auto found = std::ranges::find(kActs, word, &decltype(kActs)::value_type::first);
  if (found == kActs.end()) return wrong_words("act", "a pedal cannot `" + word + "`", "take, next, back, undo or yes");
  return found->second;
}

Json pedal_json(const View& view, const Pedal& pedal) {
  const auto found = view.pedals.find(pedal.name);
  const LivePedal live = found == view.pedals.end() ? LivePedal{} : found->second;
  return {{"name", pedal.name},          {"port", pedal.port},  {"press", pedal.press},
          {"long", or_null(pedal.hold)}, {"state", live.state}, {"why", text_or_null(live.why)}};
}

Result<Json> pedal_list(const View& view, const Json&) {
  Json list = Json::array();
  for (const auto& [name, pedal] : view.bench.pedals) list.push_back(pedal_json(view, pedal));
  return list;
}

PedalSession::PedalSession(asio::any_io_executor loop, Desk& desk, OpenLink open, Actor self, Pedal pedal)
    : loop_(std::move(loop)),
      desk_(desk),
      open_(std::move(open)),
      self_(std::move(self)),
      pedal_(std::move(pedal)),
      timer_(loop_) {
  self_.via = "pedal";
}

void PedalSession::start() {
  try_open();
  asio::co_spawn(loop_, run(shared_from_this()), [](const std::exception_ptr& error) {
    if (error) spdlog::critical("the session of a pedal ended by an error of ours");
  });
}

asio::awaitable<void> PedalSession::run(std::shared_ptr<PedalSession> self) {
  PedalSession& session = *self;
  while (!session.stopped_) {
    if (!session.link_) {
      session.timer_.expires_after(kAgain);
      co_await session.timer_.async_wait(asio::as_tuple(asio::use_awaitable));
      if (!session.stopped_) session.try_open();
      continue;
    }
    const std::shared_ptr<drivers::Link> link = session.link_;
    const drivers::Chunk chunk = co_await link->read();
    if (session.stopped_) break;
    for (const drivers::Received each : chunk.bytes)
      if (!each.damaged) session.take(each.byte == kDown, session.desk_.clock().now().mono_ns);
    if (!chunk.gone) continue;
    link->close();
    session.link_.reset();
    session.down_ns_.reset();
    session.tell("gone", chunk.why);
  }
}

void PedalSession::try_open() {
  auto opened = open_(loop_, pedal_.port, pedal_profile());
  if (!opened) return tell("gone", opened.error().message);
  link_ = std::move(*opened);
  tell("open", "");
}

void PedalSession::tell(const std::string& state, const std::string& why) {
  LivePedal& live = desk_.live_pedal(pedal_.name);
  if (live.state != state) spdlog::info("pedal {}: {} {}", printable(pedal_.name), state, printable(why));
  live.state = state;
  live.why = printable(valid_utf8(why));
}

/// Without an act for a long press a press counts at once; with one it counts when the key is let go.
void PedalSession::take(bool down, std::int64_t now_ns) {
  if (down) {
    down_ns_ = now_ns;
    if (!pedal_.hold) act(pedal_.press);
  } else if (const auto since_ns = std::exchange(down_ns_, std::nullopt); since_ns && pedal_.hold) {
    act(now_ns - *since_ns >= kLong_ms * 1'000'000 ? *pedal_.hold : pedal_.press);
  }
}

/// What is refused is told to those who watch: nobody looks at the foot.
void PedalSession::act(const std::string& word) {
  const Desk::Answer answered = [&desk = desk_, name = pedal_.name](const Result<Json>& answer) {
    if (answer) return;
    spdlog::warn("pedal {}: {}", printable(name), answer.error().message);
    desk.tell({{"event", "fault"},
               {"gauge", nullptr},
               {"why", "refused"},
               {"text", answer.error().message},
               {"raw", ""},
               {"bytes", 0},
               {"count", 1}});
  };
  const auto known = pedal_act(word);
  if (!known) return answered(tl::unexpected(known.error()));
  desk_.command(self_, *known, Json::object(), word, answered);
}

void PedalSession::stop() {
  stopped_ = true;
  timer_.cancel();
  if (link_) link_->close();
}

void Pedals::start_all(const Bench& bench) {
  for (const auto& [name, pedal] : bench.pedals) start(pedal);
}

void Pedals::start(const Pedal& pedal) {
  auto session = std::make_shared<PedalSession>(loop_, desk_, open_, self_, pedal);
  sessions_[pedal.name] = session;
  session->start();
}

void Pedals::follow(const Entry& entry, const Bench& bench) {
  const auto& kind = entry.body.at("kind").get_ref<const std::string&>();
  if (kind != "pedal" && kind != "pedal_drop") return;
  const auto name = entry.body.at("pedal").get<std::string>();
  if (kind == "pedal") return start(bench.pedals.at(name));
  if (const auto found = sessions_.find(name); found != sessions_.end()) {
    found->second->stop();
    sessions_.erase(found);
  }
}

void Pedals::stop_all() {
  for (const auto& [name, session] : sessions_) session->stop();
  sessions_.clear();
}

}  // namespace tenth
