#include <algorithm>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <chrono>

#include "daemon/ports/port_session.hpp"
#include "daemon/ports/wire_text.hpp"

namespace tenth {

namespace {

namespace asio = boost::asio;
using std::chrono::milliseconds;
using std::chrono::nanoseconds;

constexpr auto kTuple = asio::as_tuple(asio::use_awaitable);

}  // namespace

/// Asks, waits for the answer as long as it may take, and asks again when it is time. Ends with the link it asks on.
asio::awaitable<void> PortSession::poll(std::shared_ptr<PortSession> self, std::shared_ptr<drivers::Link> link) {
  PortSession& session = *self;
  const Trigger& trigger = session.profile_.trigger;
  while (!session.stopped_ && session.link_ == link) {
    const auto began = std::chrono::steady_clock::now();
    auto again = began;
    if (session.desk_.has_room() && session.ask(*link)) {
      session.answer_timer_.expires_after(milliseconds(trigger.within_ms));
      co_await session.answer_timer_.async_wait(kTuple);
      if (session.stopped_ || session.link_ != link) break;
      if (session.asked_ && session.no_answer())
        again = std::chrono::steady_clock::now() + nanoseconds(drivers::Burst::kPause_ns);
    }
    asio::steady_timer pause(session.loop_, std::max(again, began + milliseconds(trigger.every_ms)));
    co_await pause.async_wait(kTuple);
  }
}

bool PortSession::ask(drivers::Link& link) {
  const std::string question = decoder_->ask();
  const Instant now = desk_.clock().now();
  if (!link.write(question)) return false;
  asked_ = true;
  for (const auto& feed : feeds_) feed->tell_wire("gauge", wire_text(question), now);
  return true;
}

/// True where an answer had begun: its rest may still come, and must not be taken for that of the next question.
bool PortSession::no_answer() {
  asked_ = false;
  const Instant now = desk_.clock().now();
  std::vector<drivers::Event> events = decoder_->silence();
  const bool begun = !events.empty();
  if (!begun) {
    const std::string within = std::to_string(profile_.trigger.within_ms) + " ms";
    events.emplace_back(drivers::Fault{drivers::FaultReason::silent, "no answer within " + within, "", 0});
    mood("silent", "no answer within " + within);
  }
  for (drivers::Event& event : events) take_fault(std::get<drivers::Fault>(std::move(event)), now, false);
  return begun;
}

}  // namespace tenth
