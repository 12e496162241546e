#include "simulators/port.hpp"

#include <gtest/gtest.h>
#include <sys/file.h>
#include <sys/ioctl.h>

#include <chrono>
#include <fstream>
#include <thread>

#include "bench.hpp"

namespace tenth::simulators {
namespace {

namespace fs = std::filesystem;

TEST(Port, StandsUnderItsLinkAndGoesWithIt) {
  const Folder folder;
  {
    const auto port = Port::open(folder / "deep/bore").value();
    EXPECT_EQ(fs::read_symlink(folder / "deep/bore"), port->where());
  }
  EXPECT_FALSE(fs::is_symlink(folder / "deep/bore"));
}

TEST(Port, BytesWaitForAReaderAndArriveAsTheyAre) {
  const Folder folder;
  const auto port = Port::open(folder / "bore").value();
  const std::string bytes("\x00\x03\x04\x11\x13\r\n\x7F\xFF", 9);
  ASSERT_TRUE(port->send(bytes));
  const Reader reader(folder / "bore");
  EXPECT_EQ(reader.read(bytes.size()), bytes);
}

TEST(Port, EchoesNothingBack) {
  const Folder folder;
  const auto port = Port::open(folder / "bore").value();
  const Reader reader(folder / "bore");
  ASSERT_EQ(::write(reader.descriptor(), "ask\r", 4), 4);
  ASSERT_TRUE(port->send("1\r"));
  EXPECT_EQ(reader.read(2), "1\r");
  pollfd waiting{reader.descriptor(), POLLIN, 0};
  EXPECT_EQ(::poll(&waiting, 1, 50), 0);
}

TEST(Port, ClosingIsAHangUpForTheReader) {
  const Folder folder;
  auto port = Port::open(folder / "bore").value();
  const Reader reader(folder / "bore");
  port.reset();
  EXPECT_TRUE(hung_up(reader.descriptor()));
}

TEST(Port, ReplacesADeadLinkOnly) {
  const Folder folder;
  fs::create_symlink("/dev/pts/left-behind", folder / "dead");
  EXPECT_TRUE(Port::open(folder / "dead"));
  std::ofstream(folder / "file") << "kept";
  EXPECT_NE(Port::open(folder / "file").error().find("is there already"), std::string::npos);
  EXPECT_EQ(fs::file_size(folder / "file"), 4U);
  const auto first = Port::open(folder / "bore").value();
  EXPECT_FALSE(Port::open(folder / "bore"));
}

TEST(Port, LeavesALinkThatIsNoLongerItsOwn) {
  const Folder folder;
  auto port = Port::open(folder / "bore").value();
  fs::remove(folder / "bore");
  fs::create_symlink("/dev/null", folder / "bore");
  port.reset();
  EXPECT_TRUE(fs::is_symlink(folder / "bore"));
}

TEST(Port, RefusesWhenNobodyReads) {
  const Folder folder;
  const auto port = Port::open(folder / "bore").value();
  const std::string frame = "FFFF008301230\r";
  Result<void> sent;
  for (int i = 0; i < 100'000 && sent; ++i) sent = port->send(frame);
  ASSERT_FALSE(sent);
  EXPECT_NE(sent.error().find("is full: nobody reads it"), std::string::npos);
  const Reader reader(folder / "bore");
  for (int i = 0; i < 200; ++i) ASSERT_EQ(reader.read(frame.size()), frame) << i;
  // The kernel moves what waits to the reader's side in its own time.
  for (int i = 0; i < 200 && !(sent = port->send(frame)); ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds(10));
  EXPECT_TRUE(sent);
}

class Exclusive : public testing::Test {
 protected:
  bool marked() const {
    int mark = 0;
    ::ioctl(descriptor(), TIOCGEXCL, &mark);
    return mark != 0;
  }
  int descriptor() const { return own_.descriptor(); }

  Folder folder_;
  std::unique_ptr<Port> port_ = Port::open(folder_ / "bore").value();
  Reader own_{folder_ / "bore"};
};

TEST_F(Exclusive, MarkOfALivingReaderStays) {
  const Reader reader(folder_ / "bore");
  ASSERT_EQ(::flock(reader.descriptor(), LOCK_EX | LOCK_NB), 0);
  ASSERT_EQ(::ioctl(reader.descriptor(), TIOCEXCL), 0);
  port_->forget_dead_reader();
  EXPECT_TRUE(marked());
}

TEST_F(Exclusive, MarkOfADeadReaderGoes) {
  Reader reader(folder_ / "bore");
  ASSERT_EQ(::flock(reader.descriptor(), LOCK_EX | LOCK_NB), 0);
  ASSERT_EQ(::ioctl(reader.descriptor(), TIOCEXCL), 0);
  reader.close();
  EXPECT_TRUE(marked());
  port_->forget_dead_reader();
  EXPECT_FALSE(marked());
  EXPECT_EQ(::flock(descriptor(), LOCK_EX | LOCK_NB), 0) << "it keeps no lock itself";
}

}  // namespace
}  // namespace tenth::simulators
