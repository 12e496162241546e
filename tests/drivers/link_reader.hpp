#pragma once

#include <boost/asio/co_spawn.hpp>
#include <boost/asio/io_context.hpp>
#include <chrono>
#include <exception>
#include <optional>
#include <string>

#include "drivers/link/link.hpp"

namespace tenth::test {

/// Reads links with a deadline, on a loop of its own.
class LinkReader {
 public:
  boost::asio::any_io_executor executor() { return io_.get_executor(); }

  /// Starts a read; its chunk is there when `run` has seen it end.
  void start(drivers::Link& link) {
    chunk_.reset();
    boost::asio::co_spawn(io_, link.read(), [this](const std::exception_ptr& thrown, drivers::Chunk chunk) {
      if (!thrown) chunk_ = std::move(chunk);
    });
  }

  /// One turn of the loop: a read that was started waits for bytes then, or takes those that are there.
  void turn() {
    io_.restart();
    io_.run_one();
  }

  /// The chunk, if the read ends in time.
  std::optional<drivers::Chunk> run(std::chrono::milliseconds most = std::chrono::seconds(30)) {
    io_.restart();
    io_.run_for(most);
    return chunk_;
  }

  /// The bytes of reads until `count` are there or the port is gone.
  std::vector<drivers::Received> read(drivers::Link& link, std::size_t count) {
    std::vector<drivers::Received> bytes;
    while (bytes.size() < count) {
      start(link);
      const auto chunk = run();
      if (!chunk) break;
      bytes.insert(bytes.end(), chunk->bytes.begin(), chunk->bytes.end());
      if (chunk->gone) break;
    }
    return bytes;
  }

 private:
  boost::asio::io_context io_;
  std::optional<drivers::Chunk> chunk_;
};

inline std::string text_of(const std::vector<drivers::Received>& bytes) {
  std::string text;
  for (const auto& received : bytes) text.push_back(static_cast<char>(received.byte));
  return text;
}

}  // namespace tenth::test
