#include <gtest/gtest.h>
#include <sys/stat.h>

#include <filesystem>

#include "drivers/link/baud.hpp"
#include "drivers/link/open_port.hpp"
#include "tests/drivers/link_reader.hpp"
#include "tests/drivers/shipped.hpp"
#include "tests/support/folder.hpp"
#include "tests/support/pty.hpp"

namespace tenth::drivers {
namespace {

using test::LinkReader;
using test::Pty;
using test::text_of;

class SerialLinkTest : public testing::Test {
 protected:
  std::unique_ptr<Link> open() {
    auto link = open_serial(reader_.executor(), pty_.path(), {});
    EXPECT_TRUE(link) << link.error().message;
    return link ? std::move(*link) : nullptr;
  }

  Pty pty_;
  LinkReader reader_;
};

TEST_F(SerialLinkTest, DeliversWhatTheGaugeSends) {
  const auto link = open();
  EXPECT_FALSE(link->bytes_waited());
  pty_.send("83.0104\r\n");
  EXPECT_EQ(text_of(reader_.read(*link, 9)), "83.0104\r\n");
}

TEST_F(SerialLinkTest, GivesWhatWaitsWithoutWaiting) {
  const auto link = open();
  EXPECT_TRUE(link->read_rest().empty());
  reader_.start(*link);  // a read is under way all the time
  std::string sent;
  for (int n = 0; n < 60; ++n) sent += "83.0104\r\n";
  pty_.send(sent);
  std::string rest;  // the kernel hands it over in its own time
  for (int tries = 0; tries < 1000 && rest.size() < sent.size(); ++tries) {
    rest += text_of(link->read_rest());
    usleep(1000);
  }
  EXPECT_EQ(rest, sent);
}

TEST_F(SerialLinkTest, NothingIsLostBetweenAReadUnderWayAndTheRest) {
  const auto link = open();
  pty_.send("83.0104\r\n");
  usleep(50'000);  // the kernel hands it over in its own time
  reader_.start(*link);
  reader_.turn();
  EXPECT_EQ(text_of(link->read_rest()), "83.0104\r\n");
}

TEST_F(SerialLinkTest, SetsTheLineRawAt9600AndMarksDamagedBytes) {
  const auto link = open();
  const termios line = pty_.settings();
  EXPECT_EQ(line.c_iflag, static_cast<tcflag_t>(INPCK | PARMRK));
  EXPECT_EQ(line.c_lflag & (ICANON | ECHO | ISIG | IEXTEN), 0U);
  EXPECT_EQ(line.c_cflag & (CSIZE | PARENB | CSTOPB | CRTSCTS | HUPCL), static_cast<tcflag_t>(CS8));
  EXPECT_EQ(cfgetispeed(&line), static_cast<speed_t>(B9600));
  EXPECT_EQ(line.c_cc[VMIN], 1);
  EXPECT_EQ(line.c_cc[VTIME], 0);
}

/// A pseudo-terminal keeps all but the parity bit and the width of a byte.
TEST_F(SerialLinkTest, SetsStopBitsParityAndFlowAsTheProfileSays) {
  LineSettings line;
  line.stop = 2;
  line.parity = Parity::odd;
  line.flow = Flow::xon;
  auto link = open_serial(reader_.executor(), pty_.path(), line);
  ASSERT_TRUE(link) << link.error().message;
  EXPECT_EQ(pty_.settings().c_cflag & (CSTOPB | PARODD | CRTSCTS), static_cast<tcflag_t>(CSTOPB | PARODD));
  EXPECT_EQ(pty_.settings().c_iflag & (IXON | IXOFF), static_cast<tcflag_t>(IXON | IXOFF));
  (*link)->close();
  line.parity = Parity::even;
  line.flow = Flow::rts;
  link = open_serial(reader_.executor(), pty_.path(), line);
  ASSERT_TRUE(link) << link.error().message;
  EXPECT_EQ(pty_.settings().c_cflag & (CSTOPB | PARODD | CRTSCTS), static_cast<tcflag_t>(CSTOPB | CRTSCTS));
  EXPECT_EQ(pty_.settings().c_iflag & (IXON | IXOFF), 0U);
}

TEST_F(SerialLinkTest, SetsAnyWholeNumberOfBaud) {
  for (const int baud : {1200, 76800, 250000}) {
    LineSettings line;
    line.baud = baud;
    const auto link = open_serial(reader_.executor(), pty_.path(), line);
    ASSERT_TRUE(link) << link.error().message;
    const int other = ::open(pty_.path().c_str(), O_RDWR | O_NOCTTY | O_CLOEXEC);
    EXPECT_EQ(baud_of(other), baud);
    ::close(other);
  }
}

TEST_F(SerialLinkTest, MakesALineRawThatWasLeftForATerminal) {
  const int other = ::open(pty_.path().c_str(), O_RDWR | O_NOCTTY | O_CLOEXEC);
  termios line = pty_.settings();
  line.c_iflag |= ICRNL | IXON | IXOFF;
  line.c_lflag |= ICANON | ECHO | ISIG | IEXTEN;
  ASSERT_EQ(tcsetattr(other, TCSANOW, &line), 0);
  ::close(other);
  const auto link = open();
  pty_.send("83.0\x03\x7F\r");
  EXPECT_EQ(text_of(reader_.read(*link, 7)), "83.0\x03\x7F\r");
  EXPECT_EQ(pty_.sent_back(), "");
}

TEST_F(SerialLinkTest, DeliversEveryByteValueAsItIs) {
  const auto link = open();
  std::string all;
  for (int byte = 0; byte < 256; ++byte) all.push_back(static_cast<char>(byte));
  pty_.send(all + "\xFF\xFF");
  const auto bytes = reader_.read(*link, 258);
  EXPECT_EQ(text_of(bytes), all + "\xFF\xFF");
  for (const Received& received : bytes) EXPECT_FALSE(received.damaged);
}

TEST_F(SerialLinkTest, ReadsWhatWaitedAndSaysSo) {
  pty_.send("3.0104\r");
  const auto link = open();
  EXPECT_TRUE(link->bytes_waited());
  pty_.send("83.0111\r");
  EXPECT_EQ(text_of(reader_.read(*link, 15)), "3.0104\r83.0111\r");
}

TEST_F(SerialLinkTest, WaitsAsLongAsTheGaugeIsSilent) {
  const auto link = open();
  reader_.start(*link);
  EXPECT_FALSE(reader_.run(std::chrono::milliseconds(100)));
  pty_.send("1\r");
  const auto chunk = reader_.run();
  ASSERT_TRUE(chunk);
  EXPECT_EQ(text_of(chunk->bytes), "1\r");
  EXPECT_FALSE(chunk->gone);
}

TEST_F(SerialLinkTest, IsGoneWhenTheGaugeIsPulledOut) {
  const auto link = open();
  reader_.start(*link);
  EXPECT_FALSE(reader_.run(std::chrono::milliseconds(20)));
  pty_.hang_up();
  const auto chunk = reader_.run();
  ASSERT_TRUE(chunk);
  EXPECT_TRUE(chunk->gone);
  EXPECT_FALSE(chunk->why.empty());
  EXPECT_EQ(open_serial(reader_.executor(), pty_.path(), {}).error().code, "absent");
}

TEST_F(SerialLinkTest, DeliversWhatItHasBeforeItIsGone) {
  pty_.send("83.01");
  const auto link = open();
  pty_.hang_up();
  reader_.start(*link);
  auto chunk = reader_.run();
  ASSERT_TRUE(chunk);
  EXPECT_EQ(text_of(chunk->bytes), "83.01");
  EXPECT_FALSE(chunk->gone);
  reader_.start(*link);
  chunk = reader_.run();
  ASSERT_TRUE(chunk);
  EXPECT_TRUE(chunk->gone);
}

TEST_F(SerialLinkTest, APartFrameBecomesAFaultWhenThePortGoes) {
  const auto link = open();
  const auto decoder = decoder_of("line", Unit::mm);
  pty_.send("83.0104\r83.0");
  EXPECT_EQ(decoder->feed(reader_.read(*link, 12)).size(), 1U);
  pty_.hang_up();
  reader_.start(*link);
  ASSERT_TRUE(reader_.run()->gone);
  const auto events = decoder->finish();
  ASSERT_EQ(events.size(), 1U);
  EXPECT_EQ(std::get<Fault>(events[0]).raw, "83.0");
}

TEST_F(SerialLinkTest, CloseEndsAWaitingReadAtOnce) {
  const auto link = open();
  reader_.start(*link);
  EXPECT_FALSE(reader_.run(std::chrono::milliseconds(20)));
  const auto before = std::chrono::steady_clock::now();
  link->close();
  const auto chunk = reader_.run();
  EXPECT_LT(std::chrono::steady_clock::now() - before, std::chrono::seconds(10));
  ASSERT_TRUE(chunk);
  EXPECT_TRUE(chunk->gone);
  reader_.start(*link);
  EXPECT_TRUE(reader_.run()->gone);
}

TEST_F(SerialLinkTest, CloseIsSafeTwiceAndOnADeadPort) {
  const auto link = open();
  pty_.send("83.0104\r");
  pty_.hang_up();
  const auto before = std::chrono::steady_clock::now();
  link->close();
  link->close();
  EXPECT_LT(std::chrono::steady_clock::now() - before, std::chrono::seconds(10));
}

TEST_F(SerialLinkTest, CanBeOpenedAgainAfterClose) {
  open()->close();
  const auto link = open();
  pty_.send("1\r");
  EXPECT_EQ(text_of(reader_.read(*link, 2)), "1\r");
}

TEST_F(SerialLinkTest, WritesNothingToTheGauge) {
  pty_.send("83.0\x11\x13\x03");
  {
    const auto link = open();
    pty_.send("104\r\n\xFF\x1A\x04");
    reader_.read(*link, 15);
  }
  EXPECT_EQ(pty_.sent_back(), "");
}

TEST_F(SerialLinkTest, FollowsALink) {
  const Folder folder;
  const auto by_id = folder / "by-id";
  std::filesystem::create_symlink(pty_.path(), by_id);
  EXPECT_TRUE(open_serial(reader_.executor(), by_id, {}));
  std::filesystem::remove(by_id);
  EXPECT_EQ(open_serial(reader_.executor(), by_id, {}).error().code, "absent");
}

TEST_F(SerialLinkTest, RefusesWhatIsNoPort) {
  EXPECT_EQ(open_serial(reader_.executor(), "/dev/no-such-port", {}).error().code, "absent");
  EXPECT_EQ(open_serial(reader_.executor(), "/dev/null", {}).error().code, "not_a_port");
  EXPECT_EQ(open_serial(reader_.executor(), TENTH_BINARY_DIR, {}).error().code, "not_a_port");
  EXPECT_EQ(open_serial(reader_.executor(), "", {}).error().code, "absent");
}

TEST_F(SerialLinkTest, SaysWhenThePortIsNotOursToOpen) {
  chmod(pty_.path().c_str(), 0);
  const uid_t user = geteuid();
  ASSERT_EQ(seteuid(user == 0 ? 65534 : user), 0);  // root would be let in
  const auto link = open_serial(reader_.executor(), pty_.path(), {});
  ASSERT_EQ(seteuid(user), 0);
  ASSERT_FALSE(link);
  EXPECT_EQ(link.error().code, "permission");
  EXPECT_NE(link.error().remedy.find("group"), std::string::npos);
}

}  // namespace
}  // namespace tenth::drivers
