// A desk over a real ledger on a disk of which the n-th call fails, for every n until none is left to fail.
#include <gtest/gtest.h>

#include <boost/asio/io_context.hpp>
#include <boost/asio/post.hpp>

#include "daemon/desk.hpp"
#include "tests/daemon/workbench.hpp"
#include "tests/schema/store_support.hpp"
#include "tests/support/faulty_vfs.hpp"

namespace tenth {
namespace {

using std::chrono::milliseconds;

struct Fault {
  std::string name;
  int code;
  bool for_ever;  ///< until somebody sees to the disk
  friend void PrintTo(const Fault& fault, std::ostream* out) { *out << fault.name; }
};

class Shift {
 public:
  explicit Shift(const Fault& fault) : fault_(fault) {}

  /// A gauge pressed and operators added, while the n-th call to the disk fails. True if one did.
  bool work(int n) {
    disk_.fail_at(n, fault_.code, fault_.for_ever);
    act("gauge", gauge_add, {{"name", "mic"}, {"port", "/dev/mic"}, {"profile", "bcd13"}});
    if (said_.back() != "done") return again_later();
    for (const char* name : {"ann", "ben"}) {
      press();
      act(name, operator_add, {{"name", name}});
      press();
    }
    return again_later();
  }

  /// The disk is seen to: everything that waited is stored, once, in order, and every answer was true.
  void expect_whole() const {
    Bench bench;
    const auto finding =
        audit_ledger(ledger_, [&bench](const Row& row) { apply(bench, {row.seq, Json::parse(row.body), ""}); });
    ASSERT_TRUE(finding && finding->ok);
    std::vector<std::string> texts;
    for (const Reading& reading : bench.placeless) texts.push_back(reading.text);
    EXPECT_EQ(texts, pressed_);
    for (const auto& [name, told] : answers_) {
      if (name == "gauge") continue;
      EXPECT_EQ(bench.operators.contains(name), told != "not_stored") << name << " was told " << told;
    }
    EXPECT_EQ(desk_.view().waiting, 0U);
    EXPECT_EQ(desk_.view().bench.seq, ledger_.head().seq);
  }

  const std::map<std::string, std::string>& answers() const { return answers_; }

 private:
  void act(const std::string& name, Decided (*what)(Draft&, const Json&), const Json& params) {
    desk_.command({"tester", 1000, "socket"}, what, params, "test", [this, name](const Result<Json>& answer) {
      said_.push_back(answer ? "done" : answer.error().code);
      answers_[name] = said_.back();
    });
    run_for(milliseconds(0));
  }
  void press() {
    pressed_.push_back("82.9" + std::to_string(10 + pressed_.size()));
    const std::string& number = pressed_.back();
    desk_.frame({"mic",
                 {number, number, length_from_decimal(number, Unit::mm).value(), Unit::mm, true},
                 false,
                 clock_.now(),
                 {},
                 0,
                 {}},
                [](std::int64_t) {});
    run_for(milliseconds(0));
  }
  bool again_later() {
    run_for(milliseconds(3));
    const bool failed = disk_.has_failed();
    disk_.heal();
    for (int tries = 0; tries < 100 && desk_.view().waiting > 0; ++tries) run_for(milliseconds(2));
    return failed;
  }
  void run_for(milliseconds time) {
    loop_.restart();
    loop_.poll();
    if (time.count() > 0) loop_.run_for(time);
  }

  Fault fault_;
  LedgerFolder folder_;
  FaultyDisk disk_;
  boost::asio::io_context loop_;
  SystemClock clock_;
  Ledger ledger_ = opened(Ledger::open(folder_.ledger()));
  std::vector<std::string> pressed_, said_;
  std::map<std::string, std::string> answers_;
  Desk desk_{{loop_.get_executor(),
              [this](std::vector<std::string> bodies, StoreThread::Stored stored) {
                boost::asio::post(loop_, [this, bodies = std::move(bodies), stored = std::move(stored)] {
                  stored(ledger_.append(bodies));
                });
              },
              {},
              "",
              &clock_,
              {},
              {"tester", 0, "daemon"},
              [] { return std::uint64_t{1}; },
              milliseconds(1)}};
};

class DeskDisk : public testing::TestWithParam<Fault> {};

TEST_P(DeskDisk, StoresEachPressOnceAndEveryAnswerIsTrueWhicheverCallFails) {
  std::set<std::string> told;
  for (int n = 1;; ++n) {
    SCOPED_TRACE("call " + std::to_string(n));
    Shift shift(GetParam());
    const bool failed = shift.work(n);
    shift.expect_whole();
    for (const auto& [name, answer] : shift.answers()) told.insert(answer);
    if (!failed || HasFailure()) break;
    ASSERT_LT(n, 1000);
  }
  EXPECT_EQ(told, (std::set<std::string>{"done", "not_known", "not_stored"})) << "a sync that fails leaves it open";
}

INSTANTIATE_TEST_SUITE_P(Disk, DeskDisk,
                         testing::Values(Fault{"full_once", SQLITE_FULL, false},
                                         Fault{"full_for_ever", SQLITE_FULL, true},
                                         Fault{"error_once", SQLITE_IOERR, false},
                                         Fault{"error_for_ever", SQLITE_IOERR, true}),
                         [](const auto& each) { return each.param.name; });

}  // namespace
}  // namespace tenth
