#pragma once

#include <boost/asio/any_io_executor.hpp>
#include <boost/asio/awaitable.hpp>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "drivers/catalog.hpp"
#include "drivers/decoder.hpp"
#include "rules/result.hpp"

namespace tenth::drivers {

/// What one read of a port gave.
struct Chunk {
  std::vector<Received> bytes;
  bool gone = false;  ///< end-of-file, EIO, ENXIO or a hang-up: close and find the port again
  std::string why;    ///< for people, where gone
};

/// A gauge port: the one door to bytes. Real: `open_port`; tests script their own.
class Link {
 public:
  virtual ~Link() = default;
  /// False while `connect` has still to find the other side: a network. Nothing may be read or written till then.
  virtual bool connected() const { return true; }
  /// Refused with code `absent` (nobody answers there) or `unknown_host`; it may be called again then.
  virtual boost::asio::awaitable<Result<void>> connect() { co_return Result<void>(); }
  /// Waits for bytes; cancellation of the coroutine or `close` ends the wait with `gone`.
  virtual boost::asio::awaitable<Chunk> read() = 0;
  /// What waits in the kernel now and was not read yet, up to 256 KiB; waits for nothing.
  virtual std::vector<Received> read_rest() = 0;
  /// A question, at once and whole; false where the port does not take it now.
  virtual bool write(std::string_view bytes) = 0;
  /// True where bytes were waiting in the kernel when the port was opened: their beginning was not seen.
  virtual bool bytes_waited() const { return false; }
  virtual Wire wire() const { return Wire::serial; }
  /// What the system knows of the converter behind it; empty: nothing.
  virtual std::string device() const { return {}; }
  /// At once, never draining; safe on a dead port.
  virtual void close() = 0;
};

}  // namespace tenth::drivers
