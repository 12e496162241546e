#include "daemon/ports/listen.hpp"

#include <algorithm>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/co_spawn.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/this_coro.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <chrono>

#include "daemon/params.hpp"
#include "drivers/burst.hpp"
#include "drivers/catalog.hpp"
#include "drivers/link/found_ports.hpp"
#include "drivers/link/open_port.hpp"
#include "drivers/listening.hpp"
#include "drivers/port_name.hpp"
#include "schema/json/escape.hpp"
#include "schema/profile/profile_file.hpp"

namespace tenth {

namespace {

namespace asio = boost::asio;
using std::chrono::milliseconds;
using std::chrono::nanoseconds;
using Steady = std::chrono::steady_clock;

constexpr auto kTuple = asio::as_tuple(asio::use_awaitable);
constexpr milliseconds kAgain(50);
constexpr std::int64_t kUsual_s = 20, kMost_s = 600;
constexpr std::size_t kMostBurst = 4096;  // of bytes: a gauge that streams knows no pause

/// The profiles that Tenth ships, and those the caller has.
Result<std::vector<drivers::Tried>> tried(const Json& params) {
  std::vector<drivers::Tried> all;
  for (const drivers::ShippedProfile& each : drivers::shipped_profiles())
    all.push_back({std::string(each.name), parse_profile(each.text, std::string(each.name)).value()});
  const Json own = params.value("profiles", Json::array());
  for (const Json& each : own.is_array() ? own : Json::array()) {
    const Params given(each);
    TENTH_TRY(const std::string name, given.text("name"));
    TENTH_TRY(const std::string text, given.file("text"));
    if (auto profile = parse_profile(text, name))
      all.push_back({name, std::move(*profile)});  // a broken one fits nothing
  }
  return all;
}

Result<void> check_free(const Bench& bench, const std::string& port) {
  for (const auto& [name, gauge] : bench.gauges)
    if (!gauge.dropped && gauge.port == port)
      return refuse("port_taken", "gauge `" + name + "` has the port " + port,
                    "its frames are seen by `tenth gauge record " + name + " FILE`");
  return {};
}

/// What a port brings until it pauses, is closed by the timer, or `kMostBurst` are there.
struct Ear {
  std::shared_ptr<drivers::Link> link;
  std::vector<drivers::Received> burst;
  bool gone = false;
};

asio::awaitable<void> hear(std::shared_ptr<Ear> ear, std::shared_ptr<asio::steady_timer> pause) {
  while (!ear->gone) {
    const drivers::Chunk chunk = co_await ear->link->read();
    ear->burst.insert(ear->burst.end(), chunk.bytes.begin(), chunk.bytes.end());
    ear->gone = chunk.gone;
    if (ear->burst.size() < kMostBurst) pause->expires_after(nanoseconds(drivers::Burst::kPause_ns));
    if (ear->burst.size() >= kMostBurst) pause->cancel();
  }
  pause->cancel();
}

/// A burst is over after such a pause; where nothing comes, the caller may have gone.
Steady::time_point next_look(Steady::time_point until) {
  return std::min(until, Steady::now() + nanoseconds(drivers::Burst::kPause_ns));
}

/// No longer than the listening: a name that nobody knows takes its time.
asio::awaitable<Result<void>> connect(std::shared_ptr<drivers::Link> link, Steady::time_point until) {
  asio::steady_timer limit(co_await asio::this_coro::executor, until);
  limit.async_wait([link](const boost::system::error_code& error) {
    if (!error) link->close();
  });
  co_return co_await link->connect();
}

asio::awaitable<Result<void>> listen_once(drivers::Listening& listening, std::string port, Steady::time_point until,
                                          HungUp hung_up) {
  const auto executor = co_await asio::this_coro::executor;
  Profile profile;
  profile.line = listening.line();
  auto opened = drivers::open_port(executor, port, profile);
  if (!opened) co_return tl::unexpected(opened.error());
  auto ear = std::make_shared<Ear>(Ear{std::move(*opened), {}, false});
  if (!ear->link->connected()) {
    if (const auto connected = co_await connect(ear->link, until); !connected) co_return connected;
  }
  auto pause = std::make_shared<asio::steady_timer>(executor, next_look(until));
  asio::co_spawn(executor, hear(ear, pause), [](const std::exception_ptr&) {});
  bool understood = true;
  while (understood && !ear->gone && !listening.done() && !hung_up() && Steady::now() < until) {
    co_await pause->async_wait(kTuple);
    if (pause->expiry() > Steady::now() && !ear->gone && ear->burst.size() < kMostBurst) continue;
    understood = listening.take(std::exchange(ear->burst, {}));
    pause->expires_at(next_look(until));
  }
  ear->gone = true;
  ear->link->close();
  co_return Result<void>();
}

Json printed(const std::vector<std::string>& texts) {
  Json list = Json::array();
  for (const std::string& text : texts) list.push_back(printable(valid_utf8(text)));
  return list;
}

Json candidate_json(const drivers::Candidate& candidate) {
  const std::size_t all = candidate.numbers.size() + candidate.faults;
  return {{"profile", candidate.name},
          {"line", words(candidate.line)},
          {"numbers", candidate.numbers},
          {"channels", printed(candidate.channels)},
          {"faults", candidate.faults},
          {"sure", static_cast<double>(candidate.numbers.size()) / static_cast<double>(all)}};
}

/// As a word of a shell: the line is made to be copied, and a channel is what came over the wire.
std::string quoted_word(const std::string& word) {
  constexpr std::string_view kPlain = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_./:@+-";
  if (!word.empty() && word.find_first_not_of(kPlain) == std::string::npos) return word;
  std::string quoted = "'";
  for (const char c : word) quoted += c == '\'' ? "'\\''" : std::string(1, c);
  return quoted + "'";
}

Json answer(const drivers::Listening& listening, const std::string& port) {
  Json json = {{"port", port},
               {"bytes", listening.bytes()},
               {"frames", Json::array()},
               {"candidates", Json::array()},
               {"profile", nullptr},
               {"line", nullptr},
               {"add", nullptr},
               {"also", Json::array()}};
  for (const std::string& burst : listening.bursts()) json["frames"].push_back(escape_bytes(burst));
  const std::vector<drivers::Candidate> candidates = listening.candidates();
  for (const drivers::Candidate& each : candidates) json["candidates"].push_back(candidate_json(each));
  if (candidates.empty() || !candidates.front().fits()) return json;
  const drivers::Candidate& best = candidates.front();
  json["profile"] = best.name;
  json["line"] = words(best.line);
  std::string add = "tenth gauge add NAME --port " + quoted_word(port) + " --profile " + quoted_word(best.name);
  if (!best.channels.empty()) add += " --channel " + quoted_word(printable(valid_utf8(best.channels.front())));
  if (!best.unit_named) add += " --unit mm";
  if (best.own_line) json["add"] = add;
  json["unit_named"] = best.unit_named;
  for (const drivers::Candidate& each : candidates)
    if (each.fits() && each.numbers != best.numbers) json["also"].push_back(each.name);
  return json;
}

}  // namespace

Result<Json> gauge_find(const View&, const Json&) {
  Json list = Json::array();
  const auto text = [](const std::string& words) { return text_or_null(printable(valid_utf8(words))); };
  for (const drivers::FoundPort& each : drivers::find_ports())
    list.push_back({{"port", text(each.port)},
                    {"device", each.device},
                    {"driver", text(each.driver)},
                    {"holder", text(each.holder)},
                    {"why", text(each.why)}});
  return list;
}

Result<Json> gauge_profiles(const View&, const Json&) {
  Json list = Json::array();
  for (const drivers::ShippedProfile& each : drivers::shipped_profiles()) {
    const Profile profile = parse_profile(each.text, std::string(each.name)).value();
    list.push_back({{"name", each.name},
                    {"title", profile.title},
                    {"speaks", name(profile.speaks)},
                    {"from", "shipped"},
                    {"text", each.text}});
  }
  return list;
}

asio::awaitable<Result<Json>> gauge_listen(Desk& desk, Json object, HungUp hung_up) {
  const Params params(object);
  const auto port = params.text("port");
  if (!port) co_return tl::unexpected(port.error());
  const auto seconds = params.maybe_number("for_s");
  if (!seconds) co_return tl::unexpected(seconds.error());
  const std::int64_t for_s = seconds->value_or(kUsual_s);
  if (for_s < 1 || for_s > kMost_s)
    co_return wrong_words("for", "listening takes from 1 to 600 seconds", "give whole seconds");
  const auto name = drivers::parse_port(*port);
  if (!name) co_return tl::unexpected(name.error());
  if (name->kind == drivers::PortName::Kind::hand)
    co_return wrong_words("port", "`hand` is no wire to listen on",
                          "give a port; `tenth gauge find` lists what is there");
  if (const auto free = check_free(desk.bench(), *port); !free) co_return tl::unexpected(free.error());
  auto profiles = tried(object);
  if (!profiles) co_return tl::unexpected(profiles.error());
  drivers::Listening listening(std::move(*profiles), name->kind == drivers::PortName::Kind::keys);
  const auto until = Steady::now() + std::chrono::seconds(for_s);
  while (!listening.done() && !hung_up() && Steady::now() < until) {
    if (const auto heard = co_await listen_once(listening, *port, until, hung_up); !heard)
      co_return tl::unexpected(heard.error());
    asio::steady_timer pause(co_await asio::this_coro::executor, kAgain);  // a port that does not stay open
    co_await pause.async_wait(kTuple);
  }
  co_return answer(listening, *port);
}

}  // namespace tenth
