// Where `--output` names what is no plain file: it is written into, never replaced.
#include <sys/stat.h>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class OutputFile : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single);
  }
  static Words csv(const std::filesystem::path& output) { return {"export", "--format", "csv", "--output", output}; }
};

TEST_F(OutputFile, AFifoStaysOne) {
  ASSERT_EQ(mkfifo((home_ / "pipe").c_str(), 0600), 0);
  Child reader({"cat", home_ / "pipe"});
  const Ran ran = tenth(csv(home_ / "pipe"));
  EXPECT_TRUE(std::filesystem::is_fifo(home_ / "pipe")) << ran.status << ran.out << ran.err;
}

}  // namespace
}  // namespace acceptance
