// A page left open: as many events as a minute gives, or as many as are asked for, go to one that reads on, while
// others come and go and two stall. Prints at every tenth part the memory of the process, how many a second, and how
// long a reading took meanwhile from its entry to its answer. Ends with 1 where the memory grew after the first tenth.
#include <algorithm>
#include <atomic>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <vector>

#include "daemon/acts/acts.hpp"
#include "tests/daemon/page/served.hpp"

namespace tenth::bench {
namespace {

using Clock = std::chrono::steady_clock;
using Events = std::int64_t;

const std::string kReading = "\"event\":\"reading\"";
constexpr auto kFollow = "GET /events HTTP/1.1\r\nHost: localhost\r\n\r\n";
constexpr Events kBatch = 64, kMostAhead = 192;  // an event has some 900 bytes, and a page may leave 256 KiB unread
constexpr double kMayGrow_mib = 4;

double resident_mib() {
  std::ifstream statm("/proc/self/statm");
  long total = 0, resident = 0;
  statm >> total >> resident;
  return static_cast<double>(resident) * 4096 / (1024 * 1024);
}

/// The page that is left open: counts the readings that it hears of.
void read_on(Browser& page, std::atomic<Events>& heard) {
  std::vector<char> block(64 * 1024);
  std::string text;
  boost::system::error_code error;
  while (!error) {
    text.append(block.data(), page.socket().read_some(boost::asio::buffer(block), error));
    std::size_t from = 0;
    for (auto found = text.find(kReading); found != std::string::npos; found = text.find(kReading, from), ++heard)
      from = found + kReading.size();
    text.erase(0, std::max(from, text.size() - std::min(text.size(), kReading.size() - 1)));
  }
}

void come_and_go(const Served& served, const std::atomic<bool>& ended, std::atomic<int>& came) {
  for (; !ended; ++came) {
    Browser page(served);
    page.send(kFollow);
    for (int events = 0; events < 20 && !ended; ++events) page.read_until("\n\n");
  }
}

/// Reads nothing for a while, gives up, and begins anew: the daemon cuts it off, but a page that stalls cannot hear
/// that.
void stall(const Served& served, const std::atomic<bool>& ended, std::atomic<int>& stalls) {
  for (; !ended; ++stalls) {
    Browser page(served);
    page.send(kFollow);
    for (int waited = 0; waited < 20 && !ended; ++waited) std::this_thread::sleep_for(std::chrono::milliseconds(100));
  }
}

/// Milliseconds that a reading by hand takes.
double read_once(Served& served) {
  const auto begun = Clock::now();
  served.act(enter, {{"value", "82.950"}, {"again", "82.950"}});
  return std::chrono::duration<double, std::milli>(Clock::now() - begun).count();
}

class Soak {
 public:
  Soak() {
    served_.act(engine_add, {{"name", "K1"}, {"file", "f"}, {"text", kTwin}});
    served_.act(at, {{"words", {"piston/1"}}});
    page_.send(kFollow);
    page_.read_until("hello");
    read_once(served_);
    std::string told = page_.read_until(kReading);
    told += page_.read_until("\n\n");
    event_ = Json::parse(told.substr(told.rfind("data: ") + 6));
    seq_ = served_.seq();
  }

  /// True: the memory stayed as it was. `most` 0: a minute.
  bool run(Events most) {
    std::thread page([this] { read_on(page_, heard_); }), coming([this] { come_and_go(served_, ended_, came_); });
    std::thread stalled[] = {std::thread([this] { stall(served_, ended_, stalls_); }),
                             std::thread([this] { stall(served_, ended_, stalls_); })};
    const bool flat = send(most);
    ended_ = true;
    coming.join(), stalled[0].join(), stalled[1].join();
    page_.socket().shutdown(Tcp::socket::shutdown_both);
    page.join();
    return flat;
  }

 private:
  bool send(Events most) {
    constexpr std::chrono::duration<double> kMinute(60);
    std::printf("%9s %14s %10s %10s %22s\n", "", "events", "MiB", "a second", "a reading: half, all");
    std::printf("%9s %14d %10.1f\n", "start", 0, resident_mib());
    const auto begun = Clock::now();
    const auto done = [&] {
      return most > 0 ? static_cast<double>(sent_) / static_cast<double>(most) : (Clock::now() - begun) / kMinute;
    };
    double first = 0, last = 0;
    for (int tenth = 1; tenth <= 10; ++tenth) {
      while (done() < tenth / 10.0) send_batch();
      last = resident_mib();
      if (tenth == 1) first = last;
      print(tenth, last, std::chrono::duration<double>(Clock::now() - begun).count());
    }
    std::printf("%d came and went, %d stalled\n", came_.load(), stalls_.load());
    return last - first <= kMayGrow_mib;
  }

  void send_batch() {
    while (sent_ - heard_ > kMostAhead) std::this_thread::sleep_for(std::chrono::microseconds(50));
    served_.on_loop([this] {
      for (Events n = 0; n < kBatch; ++n) served_.page().tell(event_, seq_);
    });
    sent_ += kBatch;
    if (++batches_ % 512 != 0) return;
    took_ms_.push_back(read_once(served_));
    seq_ = served_.seq();
    ++sent_;
  }

  void print(int tenth, double mib, double seconds) {
    std::ranges::sort(took_ms_);
    std::printf("%8d%% %14lld %10.1f %10.0f", tenth * 10, static_cast<long long>(sent_), mib,
                static_cast<double>(sent_) / seconds);
    if (!took_ms_.empty()) std::printf(" %10.2f ms %5.2f ms", took_ms_[took_ms_.size() / 2], took_ms_.back());
    std::printf("\n");
    std::fflush(stdout);
    took_ms_.clear();
  }

  Served served_;
  Browser page_{served_};
  Json event_;
  std::int64_t seq_ = 0;
  Events sent_ = 0, batches_ = 0;
  std::atomic<Events> heard_ = 0;
  std::atomic<int> came_ = 0, stalls_ = 0;
  std::atomic<bool> ended_ = false;
  std::vector<double> took_ms_;
};

}  // namespace
}  // namespace tenth::bench

int main(int argc, char** argv) {
  return tenth::bench::Soak().run(argc > 1 ? std::atoll(argv[1]) : 0) ? 0 : 1;
}
