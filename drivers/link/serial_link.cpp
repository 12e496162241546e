#include <fcntl.h>
#include <sys/stat.h>
#include <termios.h>
#include <unistd.h>

#include <array>
#include <boost/asio/as_tuple.hpp>
#include <boost/asio/posix/stream_descriptor.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <cerrno>
#include <cstring>

#include "drivers/link/marks.hpp"
#include "drivers/link/open_port.hpp"
#include "drivers/link/overruns.hpp"
#include "drivers/link/port_identity.hpp"
#include "drivers/link/port_lock.hpp"
#include "drivers/link/port_settings.hpp"

namespace tenth::drivers {
namespace {

namespace asio = boost::asio;

constexpr auto kTuple = asio::as_tuple(asio::use_awaitable);

class SerialLink final : public Link {
 public:
  SerialLink(asio::posix::stream_descriptor port, std::string path) : port_(std::move(port)), path_(std::move(path)) {
    received(0);  // what was lost before is not ours
  }
  SerialLink(const SerialLink&) = delete;
  SerialLink& operator=(const SerialLink&) = delete;
  ~SerialLink() override { SerialLink::close(); }

  asio::awaitable<Chunk> read() override;
  std::vector<Received> read_rest() override;
  bool write(std::string_view bytes) override;
  bool bytes_waited() const override { return bytes_waited_; }
  std::string device() const override { return port_identity(path_); }
  void close() override;

  int descriptor() { return port_.native_handle(); }
  void take_waiting();

 private:
  /// What has come, at most a buffer of it; nothing yet: `error` is 0, and gone: it is set.
  std::vector<Received> read_some(int& error);
  /// The first `count` bytes of the buffer, with what is known of their damage.
  std::vector<Received> received(std::size_t count);

  asio::posix::stream_descriptor port_;
  std::string path_;
  Marks marks_;
  Overruns overruns_;
  std::array<std::uint8_t, 4096> buffer_{};
  std::vector<Received> waiting_;  ///< read when the port was opened
  bool bytes_waited_ = false;
};

std::vector<Received> SerialLink::received(std::size_t count) {
  std::vector<Received> bytes = marks_.take(std::span(buffer_).first(count));
  overruns_.mark(bytes, lost_bytes(descriptor()));
  return bytes;
}

std::vector<Received> SerialLink::read_some(int& error) {
  const ssize_t count = ::read(descriptor(), buffer_.data(), buffer_.size());
  error = count == 0 ? EPIPE : count < 0 && errno != EAGAIN && errno != EINTR ? errno : 0;
  return count > 0 ? received(static_cast<std::size_t>(count)) : std::vector<Received>();
}

/// The kernel's count of waiting bytes leaves out what has not passed its line discipline yet; a read does not.
void SerialLink::take_waiting() {
  int gone = 0;  // the next read tells
  waiting_ = read_some(gone);
  bytes_waited_ = !waiting_.empty();
}

std::vector<Received> SerialLink::read_rest() {
  constexpr std::size_t kMost = 256 * 1024;  // a gauge that never stops ends here too
  std::vector<Received> rest = std::exchange(waiting_, {});
  int gone = 0;
  while (rest.size() < kMost) {
    const std::vector<Received> bytes = read_some(gone);
    if (bytes.empty()) break;
    rest.insert(rest.end(), bytes.begin(), bytes.end());
  }
  return rest;
}

/// Waits, and reads in the same turn of the loop that takes the bytes: none is ever between the two when the port is
/// closed or its rest is read.
asio::awaitable<Chunk> SerialLink::read() {
  while (waiting_.empty()) {
    const auto [error] = co_await port_.async_wait(asio::posix::stream_descriptor::wait_read, kTuple);
    if (error == asio::error::operation_aborted) co_return Chunk{{}, true, "closed"};
    int gone = error.value();
    if (!error) waiting_ = read_some(gone);
    if (gone != 0)
      co_return Chunk{marks_.finish(), true, "the port has gone (" + std::string(std::strerror(gone)) + ")"};
  }
  co_return Chunk{std::exchange(waiting_, {}), false, {}};
}

bool SerialLink::write(std::string_view bytes) {
  return ::write(descriptor(), bytes.data(), bytes.size()) == static_cast<ssize_t>(bytes.size());
}

void SerialLink::close() {
  if (!port_.is_open()) return;
  unlock_port(descriptor());
  tcflush(descriptor(), TCOFLUSH);  // a question that waits to go out would hold up the last close
  boost::system::error_code ignored;
  port_.close(ignored);
}

tl::unexpected<Refusal> refusal(const std::string& path, int error) {
  const std::string told = ": " + std::string(std::strerror(error));
  switch (error) {
    case EBUSY:
      return in_use(path);
    case EACCES:
    case EPERM:
      return refuse("permission", "no permission to open the port " + path,
                    "join the group that owns it (often dialout; `ls -lL " + path + "` shows it) and log in again");
    case ENOENT:
    case ENOTDIR:
    case ENODEV:
    case ENXIO:
    case EIO:  // a pseudo-terminal without its other side
      return refuse("absent", "there is no port " + path + told, "plug the gauge in, or give another port");
    default:
      return refuse("settings", "the port " + path + " cannot be opened" + told, "give another port");
  }
}

Result<int> open_device(const std::string& path) {
  struct stat status{};
  if (stat(path.c_str(), &status) != 0) return refusal(path, errno);
  if (!S_ISCHR(status.st_mode)) {
    return refuse("not_a_port", path + " is not a serial port", "give the device path of a serial port");
  }
  const int descriptor = open(path.c_str(), O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC);
  if (descriptor < 0) return refusal(path, errno);
  return descriptor;
}

}  // namespace

Result<std::unique_ptr<Link>> open_serial(const asio::any_io_executor& executor, const std::string& path,
                                          const LineSettings& line) {
  const auto descriptor = open_device(path);
  if (!descriptor) return tl::unexpected(descriptor.error());
  asio::posix::stream_descriptor port(executor);
  boost::system::error_code error;
  if (port.assign(*descriptor, error); error) {
    ::close(*descriptor);
    return refuse("not_a_port", path + " is not a serial port", "give the device path of a serial port");
  }
  if (auto locked = lock_port(*descriptor, path); !locked) return tl::unexpected(locked.error());
  auto link = std::make_unique<SerialLink>(std::move(port), path);
  if (auto set = set_port(*descriptor, path, line); !set) return tl::unexpected(set.error());
  link->take_waiting();
  return link;
}

}  // namespace tenth::drivers
