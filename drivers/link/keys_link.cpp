#include <fcntl.h>
#include <libevdev/libevdev.h>
#include <unistd.h>

#include <boost/asio/as_tuple.hpp>
#include <boost/asio/posix/stream_descriptor.hpp>
#include <boost/asio/use_awaitable.hpp>
#include <cerrno>
#include <cstring>

#include "drivers/keys/key_map.hpp"
#include "drivers/link/keyboards.hpp"
#include "drivers/link/look_around.hpp"
#include "drivers/link/open_port.hpp"

namespace tenth::drivers {

namespace {

namespace asio = boost::asio;

struct FreeDevice {
  void operator()(libevdev* device) const { libevdev_free(device); }
};
using Device = std::unique_ptr<libevdev, FreeDevice>;

class KeysLink final : public Link {
 public:
  KeysLink(asio::posix::stream_descriptor events, Device device, KeyMap map, bool pedal)
      : events_(std::move(events)), device_(std::move(device)), map_(std::move(map)), pedal_(pedal) {}
  KeysLink(const KeysLink&) = delete;
  KeysLink& operator=(const KeysLink&) = delete;
  ~KeysLink() override { KeysLink::close(); }

  asio::awaitable<Chunk> read() override;
  std::vector<Received> read_rest() override { return typed(); }
  bool write(std::string_view) override { return false; }
  std::string device() const override { return libevdev_get_name(device_.get()); }
  void close() override;

 private:
  std::vector<Received> typed();

  asio::posix::stream_descriptor events_;
  Device device_;
  KeyMap map_;
  bool pedal_;
  bool gone_ = false;
};

asio::awaitable<Chunk> KeysLink::read() {
  while (!gone_) {
    const auto [error] =
        co_await events_.async_wait(asio::posix::stream_descriptor::wait_read, asio::as_tuple(asio::use_awaitable));
    if (error == asio::error::operation_aborted) co_return Chunk{{}, true, "closed"};
    if (error) break;
    if (std::vector<Received> bytes = typed(); !bytes.empty()) co_return Chunk{std::move(bytes), false, {}};
  }
  co_return Chunk{{}, true, "the keyboard has gone"};
}

/// Where the kernel dropped events (SYN_DROPPED) keys were lost: a damaged byte says so, and the state is caught up
/// with.
std::vector<Received> KeysLink::typed() {
  std::vector<Received> bytes;
  input_event event{};
  unsigned flag = LIBEVDEV_READ_FLAG_NORMAL;
  while (true) {
    const int status = libevdev_next_event(device_.get(), flag, &event);
    if (status == -EAGAIN && flag == LIBEVDEV_READ_FLAG_SYNC) {
      flag = LIBEVDEV_READ_FLAG_NORMAL;
      continue;
    }
    if (status < 0) {
      gone_ = status != -EAGAIN;
      return bytes;
    }
    if (status == LIBEVDEV_READ_STATUS_SYNC && flag == LIBEVDEV_READ_FLAG_NORMAL) {
      bytes.push_back({0, true});
      flag = LIBEVDEV_READ_FLAG_SYNC;
      continue;
    }
    if (event.type != EV_KEY) continue;
    if (pedal_ && event.value != 2) bytes.push_back({static_cast<std::uint8_t>(event.value == 1 ? 'd' : 'u'), false});
    if (pedal_) continue;
    if (const auto c = map_.take(event.code, event.value))
      bytes.push_back({static_cast<std::uint8_t>(*c), flag == LIBEVDEV_READ_FLAG_SYNC});
  }
}

void KeysLink::close() {
  if (!events_.is_open()) return;
  libevdev_grab(device_.get(), LIBEVDEV_UNGRAB);
  boost::system::error_code ignored;
  events_.close(ignored);
}

/// One look for all keyboards: one thread asks.
Result<std::string> device_named(const std::string& name) {
  static LookAround<Keyboard> around([] { return keyboards(); });
  return around.find([&](const std::vector<Keyboard>& all) { return keyboard_named(all, name); });
}

Result<int> open_device(const std::string& path) {
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC);
  if (descriptor >= 0) return descriptor;
  const std::string told = ": " + std::string(std::strerror(errno));
  if (errno == EACCES || errno == EPERM)
    return refuse("permission", "no permission to open the keyboard " + path,
                  "join the group that owns it (often input) and log in again");
  return refuse("absent", "the keyboard " + path + " cannot be opened" + told, "plug the gauge in");
}

/// Taken while a key is down, its release would be lost to whoever has the keyboard now: the key would stick there.
bool a_key_is_down(const libevdev* device) {
  for (unsigned code = 1; code < KEY_CNT; ++code) {
    int value = 0;
    if (libevdev_fetch_event_value(device, EV_KEY, code, &value) != 0 && value != 0) return true;
  }
  return false;
}

}  // namespace

Result<std::unique_ptr<Link>> open_keys(const asio::any_io_executor& executor, const std::string& name,
                                        const Profile& profile) {
  TENTH_TRY(KeyMap map, KeyMap::make(profile.key_map));
  TENTH_TRY(const std::string path, name.starts_with('/') ? Result<std::string>(name) : device_named(name));
  TENTH_TRY(const int descriptor, open_device(path));
  asio::posix::stream_descriptor events(executor);
  boost::system::error_code error;
  if (events.assign(descriptor, error); error) {
    ::close(descriptor);
    return refuse("not_a_port", path + " is no keyboard", "give the name that `tenth gauge find` shows");
  }
  libevdev* made = nullptr;
  if (libevdev_new_from_fd(descriptor, &made) != 0)
    return refuse("not_a_port", path + " is no keyboard", "give the name that `tenth gauge find` shows");
  Device device(made);
  if (a_key_is_down(device.get())) return refuse("in_use", "a key of " + name + " is held down", "let it go");
  if (libevdev_grab(device.get(), LIBEVDEV_GRAB) != 0)
    return refuse("in_use", "the keyboard " + name + " is taken by another program", "end that program");
  return std::make_unique<KeysLink>(std::move(events), std::move(device), std::move(map),
                                    profile.speaks == Speaks::pedal);
}

}  // namespace tenth::drivers
