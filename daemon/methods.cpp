#include "daemon/methods.hpp"

#include <algorithm>
#include <boost/asio/redirect_error.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/this_coro.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <chrono>
#include <map>
#include <vector>

#include "daemon/params.hpp"
#include "daemon/ports/listen.hpp"
#include "daemon/ports/pedals.hpp"
#include "daemon/queries.hpp"
#include "rules/nearest.hpp"
#include "schema/store/ledger.hpp"

namespace tenth {
namespace {

namespace asio = boost::asio;
using Query = Result<Json> (*)(const View&, const Json&);

const std::map<std::string, Desk::Act, std::less<>>& acts() {
  static const std::map<std::string, Desk::Act, std::less<>> table = {{"engine.add", engine_add},
                                                                      {"engine.use", engine_use},
                                                                      {"operator.add", operator_add},
                                                                      {"operator.use", operator_use},
                                                                      {"engine.respec", engine_respec},
                                                                      {"decide", make_decision},
                                                                      {"install", install_part},
                                                                      {"mate", mate_parts},
                                                                      {"setup", setup_done},
                                                                      {"send", send_parts},
                                                                      {"receive", receive_parts},
                                                                      {"import", import_table},
                                                                      {"attach", attach_file},
                                                                      {"gauge.add", gauge_add},
                                                                      {"gauge.drop", gauge_drop},
                                                                      {"gauge.change", gauge_change},
                                                                      {"pedal.add", pedal_add},
                                                                      {"pedal.drop", pedal_drop},
                                                                      {"at", at},
                                                                      {"at.common", at_common},
                                                                      {"at.none", at_none},
                                                                      {"round", round_begin},
                                                                      {"next", round_next},
                                                                      {"back", round_back},
                                                                      {"master", master},
                                                                      {"recheck", recheck},
                                                                      {"enter", enter},
                                                                      {"stage", stage_begin},
                                                                      {"note", add_note},
                                                                      {"masters.add", masters_add},
                                                                      {"masters.drop", masters_drop},
                                                                      {"master.correct", master_correct},
                                                                      {"gauge.calibrate", gauge_calibrate},
                                                                      {"gauge.doubt", gauge_doubt},
                                                                      {"undo", undo},
                                                                      {"void", void_readings},
                                                                      {"keep", keep_readings},
                                                                      {"move", move_readings},
                                                                      {"alerts.clear", alerts_clear},
                                                                      {"temperature", temperature},
                                                                      {"study.plan", study_plan}};
  return table;
}

const std::map<std::string, Query, std::less<>>& queries() {
  static const std::map<std::string, Query, std::less<>> table = {{"engine.list", engine_list},
                                                                  {"operator.list", operator_list},
                                                                  {"gauge.list", gauge_list},
                                                                  {"gauge.find", gauge_find},
                                                                  {"gauge.profiles", gauge_profiles},
                                                                  {"pedal.list", pedal_list},
                                                                  {"readings", readings},
                                                                  {"budget", budget},
                                                                  {"masters.list", masters_list},
                                                                  {"check", check},
                                                                  {"charts", charts},
                                                                  {"study", study},
                                                                  {"study.list", study_list},
                                                                  {"study.bias", study_bias},
                                                                  {"study.linearity", study_linearity},
                                                                  {"alerts", alerts},
                                                                  {"status", status},
                                                                  {"bench", bench_now}};
  return table;
}

/// Hands the act to the desk and waits for its answer, which comes once it is on disk.
asio::awaitable<Result<Json>> perform(Desk& desk, Actor actor, Desk::Act act, std::string method, Json params) {
  const auto executor = co_await asio::this_coro::executor;
  auto answered = std::make_shared<std::optional<Result<Json>>>();
  auto waiting = std::make_shared<asio::steady_timer>(executor, asio::steady_timer::time_point::max());
  desk.command(std::move(actor), act, std::move(params), std::move(method), [answered, waiting](Result<Json> answer) {
    *answered = std::move(answer);
    waiting->cancel();
  });
  while (!*answered) {
    boost::system::error_code ignored;
    co_await waiting->async_wait(asio::redirect_error(asio::use_awaitable, ignored));
  }
  co_return std::move(**answered);
}

/// A reading of what a gauge shows: now, or over the seconds of rocking that begin now.
asio::awaitable<Result<Json>> take_shown(Desk& desk, Actor actor, Json object, HungUp hung_up) {
  constexpr std::int64_t kMost_s = 60;
  const auto seconds = Params(object).maybe_number("turning_s");
  if (!seconds) co_return tl::unexpected(seconds.error());
  object.erase("since_ns");  // ours alone
  if (*seconds) {
    if (**seconds < 1 || **seconds > kMost_s)
      co_return wrong_words("turning", "rocking takes from 1 to 60 seconds", "give whole seconds");
    object["since_ns"] = desk.clock().now().mono_ns;
    asio::steady_timer rocking(co_await asio::this_coro::executor, std::chrono::seconds(**seconds));
    boost::system::error_code ignored;
    co_await rocking.async_wait(asio::redirect_error(asio::use_awaitable, ignored));
    if (hung_up()) co_return refuse("hung_up", "who asked has gone, so no reading was made", "take it again");
  }
  std::string method = "take";  // g++ 12 destroys what an awaited call converts twice
  co_return co_await perform(desk, std::move(actor), take, std::move(method), std::move(object));
}

constexpr std::int64_t kMostEntries = 500;
constexpr std::size_t kMostEntryBytes = std::size_t{512} * 1024;

}  // namespace

asio::awaitable<Result<Json>> Methods::call(Actor actor, std::string method, Json params, HungUp hung_up) {
  if (const auto act = acts().find(method); act != acts().end())
    co_return co_await perform(desk_, std::move(actor), act->second, method, std::move(params));
  if (const auto query = queries().find(method); query != queries().end())
    co_return query->second(desk_.view(), params);
  if (method == "take") co_return co_await take_shown(desk_, std::move(actor), std::move(params), std::move(hung_up));
  if (method == "gauge.listen") co_return co_await gauge_listen(desk_, std::move(params), std::move(hung_up));
  if (method == "entries") co_return entries(params);
  if (method == "page") co_return page();
  co_return wrong_words("method", "there is no method `" + method + "`", "see schema/wire.md");
}

Result<Json> Methods::page() const {
  if (!page_url_.empty()) return Json{{"url", page_url_}};
  return refuse("page_off", "this tenthd serves no page",
                "start it with --http 127.0.0.1:8642, or say `http` in its configuration");
}

/// Rows of the ledger as they are, by a connection that only reads; bounded in number and in bytes.
Result<Json> Methods::entries(const Json& object) const {
  const Params params(object);
  TENTH_TRY(const std::optional<std::int64_t> from, params.maybe_number("from"));
  TENTH_TRY(const std::optional<std::int64_t> most, params.maybe_number("most"));
  if (from.value_or(1) < 1 || most.value_or(1) < 1)
    return wrong_words("params", "`from` and `most` are numbers from 1", "give numbers from 1");
  TENTH_TRY(const Ledger ledger, Ledger::open_read_only(ledger_));
  const auto count = static_cast<std::size_t>(std::min(most.value_or(kMostEntries), kMostEntries));
  TENTH_TRY(const std::vector<Row> rows, ledger.rows(from.value_or(1), count));
  const View view = desk_.view();
  Json list = Json::array();
  std::size_t bytes = 0;
  for (const Row& row : rows) {
    bytes += row.body.size();
    if (row.seq > view.bench.seq || (bytes > kMostEntryBytes && !list.empty())) break;
    list.push_back({{"seq", row.seq}, {"body", row.body}, {"hash", hex(row.hash)}});
  }
  return Json{{"head", {{"seq", view.bench.seq}, {"hash", view.head_hash}}}, {"entries", std::move(list)}};
}

}  // namespace tenth
