#include "cli/files.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "tests/support/folder.hpp"

namespace tenth::cli {
namespace {

class Files : public testing::Test {
 protected:
  std::string path(const std::string& name) const { return folder / name; }
  std::size_t count() const {
    return static_cast<std::size_t>(
        std::distance(std::filesystem::directory_iterator(folder.path()), std::filesystem::directory_iterator()));
  }
  Folder folder;
};

TEST_F(Files, ComeBackAsWritten) {
  const std::string text("a\0b\nc\xFF", 6);
  ASSERT_TRUE(write_text(path("a"), text));
  EXPECT_EQ(read_text(path("a"), 100).value(), text);
  ASSERT_TRUE(write_text(path("a"), ""));
  EXPECT_EQ(read_text(path("a"), 100).value(), "");
  EXPECT_EQ(count(), 1U);
}

TEST_F(Files, AreReadUpToTheirBound) {
  ASSERT_TRUE(write_text(path("a"), std::string(100, 'x')));
  EXPECT_TRUE(read_text(path("a"), 100));
  const auto longer = read_text(path("a"), 99);
  ASSERT_FALSE(longer);
  EXPECT_EQ(longer.error().exit, Exit::refused);
}

TEST_F(Files, ThatCannotBeReadSayWhy) {
  const auto absent = read_text(path("none"), 100);
  ASSERT_FALSE(absent);
  EXPECT_EQ(absent.error().exit, Exit::refused);
  EXPECT_NE(absent.error().message.find("No such file"), std::string::npos);
  EXPECT_FALSE(read_text(folder.path(), 100));
}

TEST_F(Files, ThatCannotBeWrittenLeaveNothingBehind) {
  ASSERT_TRUE(std::filesystem::create_directory(path("d")));
  const auto onto_folder = write_text(path("d"), "text");
  ASSERT_FALSE(onto_folder);
  EXPECT_EQ(onto_folder.error().exit, Exit::refused);
  EXPECT_EQ(count(), 1U);
  EXPECT_FALSE(write_text(path("no/such/file"), "text"));
  EXPECT_FALSE(write_text("/dev/full/x", "text"));
}

TEST_F(Files, ThatAreDevicesOrPipesAreWrittenIntoAndStay) {
  const std::string pipe = path("pipe");
  ASSERT_EQ(mkfifo(pipe.c_str(), 0600), 0);
  const int reader = open(pipe.c_str(), O_RDONLY | O_NONBLOCK);
  EXPECT_TRUE(write_text(pipe, "text"));
  char read_back[8] = {};
  EXPECT_EQ(read(reader, read_back, sizeof read_back), 4);
  EXPECT_STREQ(read_back, "text");
  close(reader);
  EXPECT_TRUE(std::filesystem::is_fifo(pipe));
  const auto full = write_text("/dev/full", "text");
  ASSERT_FALSE(full);
  EXPECT_NE(full.error().message.find("No space"), std::string::npos);
  EXPECT_TRUE(std::filesystem::is_character_file("/dev/full"));
}

TEST_F(Files, ThatALinkNamesAreReplacedBehindIt) {
  ASSERT_TRUE(write_text(path("a"), "old"));
  std::filesystem::create_symlink("a", path("link"));
  ASSERT_TRUE(write_text(path("link"), "new"));
  EXPECT_TRUE(std::filesystem::is_symlink(path("link")));
  EXPECT_EQ(read_text(path("a"), 10).value(), "new");
}

TEST_F(Files, ThatWerePrivateStaySo) {
  ASSERT_TRUE(write_text(path("a"), "old"));
  std::filesystem::permissions(path("a"), std::filesystem::perms(0600));
  ASSERT_TRUE(write_text(path("a"), "new"));
  EXPECT_EQ(std::filesystem::status(path("a")).permissions(), std::filesystem::perms(0600));
}

TEST_F(Files, KeepTheOldOneUntilTheNewOneIsWhole) {
  ASSERT_TRUE(write_text(path("a"), "old"));
  std::ifstream old(path("a"));
  ASSERT_TRUE(write_text(path("a"), "new"));
  std::string seen;
  old >> seen;
  EXPECT_EQ(seen, "old");  // what was open stays whole: the new file took its name, not its bytes
  EXPECT_EQ(read_text(path("a"), 10).value(), "new");
}

TEST_F(Files, NeverWriteThroughWhatLiesInTheWay) {
  ASSERT_TRUE(write_text(path("victim"), "untouched"));
  std::filesystem::create_symlink(path("victim"), path(".a." + std::to_string(getpid())));
  EXPECT_FALSE(write_text(path("a"), "text"));
  EXPECT_EQ(read_text(path("victim"), 100).value(), "untouched");
}

TEST_F(Files, AreTheCallersToShare) {
  const auto before = umask(027);
  ASSERT_TRUE(write_text(path("a"), "text"));
  umask(before);
  EXPECT_EQ(std::filesystem::status(path("a")).permissions(), std::filesystem::perms(0640));
}

TEST_F(Files, OfTheWorkingFolderNeedNoFolderInTheirName) {
  const auto before = std::filesystem::current_path();
  std::filesystem::current_path(folder.path());
  EXPECT_TRUE(write_text("here", "text"));
  std::filesystem::current_path(before);
  EXPECT_TRUE(std::filesystem::exists(path("here")));
}

}  // namespace
}  // namespace tenth::cli
