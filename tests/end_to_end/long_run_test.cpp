// What brings many events at once cuts nobody off who reads.
#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

TEST_F(Bench, AWatcherThatReadsHearsAllOfALongRun) {
  engine(inline_four);
  std::string first, last;
  for (int number = 0; number < 3; ++number) {
    std::string table = "feature,index,value\n";
    for (int row = 0; row < 1000; ++row)
      table += "main_journal," + std::to_string(row % 5 + 1) + ",53.99" + std::to_string(number) + "\n";
    done({"import", write("table.csv", table)});
    for (int row = 0; row < 1000; ++row) watch_->next("reading");
  }
  for (const json& reading : asked({"readings", "--all"})) {
    if (first.empty()) first = reading["seq"].dump();
    last = reading["seq"].dump();
  }
  done({"void", first + ".." + last, "--reason", "another engine's"});
  for (int row = 0; row < 3000; ++row) watch_->next("change");
  EXPECT_FALSE(watch_->heard("lost"));
}

}  // namespace
}  // namespace acceptance
