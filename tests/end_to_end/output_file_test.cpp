// Where `--output` names what is no plain file: it is written into, never replaced.
#include <sys/stat.h>

#include <fstream>

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
  Words csv(const std::filesystem::path& output) const { return {"export", "--format", "csv", "--output", output}; }
  std::string text(const std::string& name) const {
    std::ifstream stream(home_ / name);
    return {std::istreambuf_iterator<char>(stream), {}};
  }
};

TEST_F(OutputFile, AFifoStaysOne) {
  ASSERT_EQ(mkfifo((home_ / "pipe").c_str(), 0600), 0);
  Child reader({"cat", home_ / "pipe"});
  const Ran ran = tenth(csv(home_ / "pipe"));
  EXPECT_TRUE(std::filesystem::is_fifo(home_ / "pipe")) << ran.status << ran.out << ran.err;
}

TEST_F(OutputFile, ALinkStaysOneAndItsTargetIsWritten) {
  write("real.csv", "old");
  std::filesystem::create_symlink("real.csv", home_ / "link.csv");
  done(csv(home_ / "link.csv"));
  EXPECT_TRUE(std::filesystem::is_symlink(home_ / "link.csv"));
  EXPECT_TRUE(text("real.csv").starts_with("seq,time"));
}

TEST_F(OutputFile, OneForItsOwnerOnlyStaysSo) {
  using std::filesystem::perms;
  std::filesystem::permissions(write("mine.csv", "old"), perms::owner_read | perms::owner_write);
  done(csv(home_ / "mine.csv"));
  EXPECT_EQ(std::filesystem::status(home_ / "mine.csv").permissions(), perms::owner_read | perms::owner_write);
}

}  // namespace
}  // namespace acceptance
