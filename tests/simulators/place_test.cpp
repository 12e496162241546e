#include "simulators/place.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include "bench.hpp"

namespace tenth::simulators {
namespace {

namespace fs = std::filesystem;

TEST(MakeRoom, MakesTheFolder) {
  const Folder folder;
  EXPECT_TRUE(make_room(folder / "a/b/link"));
  EXPECT_TRUE(fs::is_directory(folder / "a/b"));
  EXPECT_FALSE(fs::exists(folder / "a/b/link"));
}

TEST(MakeRoom, TakesADeadLinkAway) {
  const Folder folder;
  fs::create_symlink("127.0.0.1:4001", folder / "link");
  EXPECT_TRUE(make_room(folder / "link"));
  EXPECT_FALSE(fs::is_symlink(folder / "link"));
}

TEST(MakeRoom, LeavesAllElse) {
  const Folder folder;
  std::ofstream(folder / "file") << "kept";
  fs::create_symlink(folder / "file", folder / "link");
  for (const auto* name : {"file", "link"}) {
    EXPECT_EQ(make_room(folder / name).error(), (folder / name).string() +
                                                    " is there already: end its simulator, or name another path in "
                                                    "the scenario");
    EXPECT_TRUE(fs::exists(folder / name));
  }
  EXPECT_FALSE(make_room(folder / "file/under")) << "no folder can be made there";
}

}  // namespace
}  // namespace tenth::simulators
