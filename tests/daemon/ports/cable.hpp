#pragma once

#include <boost/asio/as_tuple.hpp>
#include <boost/asio/io_context.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "drivers/link/link.hpp"

namespace tenth {

inline std::vector<drivers::Received> received(const std::string& text) {
  std::vector<drivers::Received> bytes;
  for (const char c : text) bytes.push_back({static_cast<std::uint8_t>(c), false});
  return bytes;
}

/// A gauge's cable in the test's hand: what is sent is read as one chunk; what is left is only there for the last look.
struct Cable {
  explicit Cable(boost::asio::io_context& loop) : waits(loop, boost::asio::steady_timer::time_point::max()) {}
  boost::asio::steady_timer waits;
  std::vector<drivers::Chunk> sent;
  std::string rest;
  std::string asked;   ///< all questions
  std::string answer;  ///< given at once to each; empty: none
  void send(const std::string& text) {
    sent.push_back({received(text), false, {}});
    waits.cancel();
  }
};

/// The daemon's end of it.
class CableLink : public drivers::Link {
 public:
  explicit CableLink(Cable& cable, drivers::Wire wire = drivers::Wire::serial) : cable_(cable), wire_(wire) {}
  drivers::Wire wire() const override { return wire_; }
  boost::asio::awaitable<drivers::Chunk> read() override {
    while (cable_.sent.empty() && open_)
      co_await cable_.waits.async_wait(boost::asio::as_tuple(boost::asio::use_awaitable));
    if (!open_) co_return drivers::Chunk{{}, true, "closed"};
    drivers::Chunk chunk = std::move(cable_.sent.front());
    cable_.sent.erase(cable_.sent.begin());
    co_return chunk;
  }
  std::vector<drivers::Received> read_rest() override { return received(std::exchange(cable_.rest, {})); }
  bool write(std::string_view bytes) override {
    cable_.asked += bytes;
    if (!cable_.answer.empty()) cable_.send(cable_.answer);
    return true;
  }
  void close() override {
    open_ = false;
    cable_.waits.cancel();
  }

 private:
  Cable& cable_;
  drivers::Wire wire_;
  bool open_ = true;
};

}  // namespace tenth
