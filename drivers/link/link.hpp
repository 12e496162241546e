#pragma once

#include <boost/asio/any_io_executor.hpp>
#include <boost/asio/awaitable.hpp>
#include <memory>
#include <string>
#include <vector>

#include "drivers/decoder.hpp"
#include "rules/result.hpp"

namespace tenth::drivers {

/// What one read of a port gave.
struct Chunk {
  std::vector<Received> bytes;
  bool gone = false;  ///< end-of-file, EIO, ENXIO or a hang-up: close and find the port again
  std::string why;    ///< for people, where gone
};

/// An open gauge port: the one door to bytes. Real: `open_serial`; tests script their own.
class Link {
 public:
  virtual ~Link() = default;
  /// Waits for bytes; cancellation of the coroutine or `close` ends the wait with `gone`.
  virtual boost::asio::awaitable<Chunk> read() = 0;
  /// What waits in the kernel now and was not read yet, up to 256 KiB; waits for nothing.
  virtual std::vector<Received> read_rest() = 0;
  /// True where bytes were waiting in the kernel when the port was opened: their beginning was not seen.
  virtual bool bytes_waited() const = 0;
  /// At once, never draining; safe on a dead port.
  virtual void close() = 0;
};

/// Opens a device path (serial line, by-id link or pseudo-terminal) for us alone: flock and TIOCEXCL, non-blocking,
/// VMIN 1, PARMRK, 9600 8N1, settings read back and compared (not on a pseudo-terminal). Flushes nothing, writes
/// nothing. Refused with code `absent` (no such port), `not_a_port`, `in_use` (names the holder: program and process
/// id), `permission`, `settings`. The link must outlive its `read`.
Result<std::unique_ptr<Link>> open_serial(const boost::asio::any_io_executor& executor, const std::string& path);

}  // namespace tenth::drivers
