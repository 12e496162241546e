// A daemon killed while it takes in a table has all rows of it, or none.
#include <thread>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class ImportKill : public Bench {
 protected:
  static constexpr unsigned rows = 1000;
  void SetUp() override {
    Bench::SetUp();
    engine(inline_four);
  }
  // A table of its own each time: its values differ in the last digit.
  std::filesystem::path table(int number) const {
    std::string text = "feature,index,value\n";
    for (unsigned row = 0; row < rows; ++row)
      text += "main_journal," + std::to_string(row % 5 + 1) + ",53.99" + std::to_string(number) + "\n";
    return write("table" + std::to_string(number) + ".csv", text);
  }
};

TEST_F(ImportKill, LeavesAllRowsOrNone) {
  int number = 0;
  for (const int after : {10, 40, 70, 100, 150}) {
    Child import({tenth_path(), "import", table(++number)});
    std::this_thread::sleep_for(Millis(after));  // at any time: looking for a good one would be slower than the import
    daemon_.kill();
    import.join(in(std::chrono::seconds(5)));
    daemon_.start();
    EXPECT_EQ(asked({"readings", "--all"}).size() % rows, 0U) << "killed after " << after << " ms";
    EXPECT_EQ(tenth({"audit", "--ledger", daemon_.ledger()}).status, 0);
  }
}

}  // namespace
}  // namespace acceptance
