#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace {

namespace fs = std::filesystem;

const fs::path kRoot = TENTH_SOURCE_DIR;

/// The table of arrows (DEVELOPERS.md): what a folder may include of ours. The longest folder that fits a file counts.
const std::map<std::string, std::set<std::string>> kArrows = {
    {"rules", {"rules"}},
    {"rules/remedies", {"rules/remedies", "rules"}},
    {"rules/stream", {"rules/stream", "rules"}},
    {"drivers", {"drivers", "schema/profile", "rules"}},
    {"drivers/link", {"drivers", "drivers/link", "schema/profile", "rules"}},
    {"schema/json", {"schema/json", "rules"}},
    {"schema/toml", {"schema/toml", "rules"}},
    {"schema/spec", {"schema/spec", "schema/toml", "rules"}},
    {"schema/import", {"schema/import", "schema/json", "rules"}},
    {"schema/stock", {"schema/stock", "schema/toml", "rules/remedies", "rules"}},
    {"schema/profile", {"schema/profile", "schema/toml", "rules"}},
    {"schema/speech", {"schema/speech", "schema/toml", "rules"}},
    {"schema/store", {"schema/store", "schema/json", "rules"}},
    {"schema/ledger", {"schema/ledger", "schema/json", "schema/spec", "rules"}},
    {"schema/wire", {"schema/wire", "schema/ledger", "schema/json", "rules/remedies", "rules"}},
    {"schema/export/paper",
     {"schema/export/paper", "schema/wire", "schema/store", "schema/ledger", "schema/json", "rules/remedies", "rules"}},
    {"schema/export/html", {"schema/export/html", "schema/export/paper", "schema/json", "rules"}},
    {"schema/export/pdf", {"schema/export/pdf", "schema/export/paper", "schema/json"}},
    {"schema/export",
     {"schema/export", "schema/export/paper", "schema/export/html", "schema/export/pdf", "schema/wire", "schema/store",
      "schema/ledger", "schema/json", "rules"}},
    {"daemon/page", {"daemon/page", "daemon", "schema/wire", "schema/json", "rules"}},
    {"daemon",
     {"daemon", "daemon/page", "drivers", "drivers/link", "schema/store", "schema/wire", "schema/ledger", "schema/spec",
      "schema/profile", "schema/import", "schema/json", "rules/stream", "rules"}},
    {"cli",
     {"cli", "schema/stock", "schema/speech", "rules/remedies", "schema/wire", "schema/export", "schema/export/paper",
      "schema/store", "schema/ledger", "schema/json", "rules"}},
    {"simulators", {"simulators"}},
};

/// Libraries that only some folders may see.
const std::map<std::string, std::set<std::string>> kLibraries = {
    {"cairo", {"schema/export/pdf"}},
    {"pango/", {"schema/export/pdf"}},
    {"qrencode.h", {"schema/export/paper"}},
    {"SQLiteCpp/", {"schema/store"}},
    {"sqlite3.h", {"schema/store"}},
    {"sodium.h", {"schema/store", "daemon/page"}},
    {"libserialport.h", {"drivers/link"}},
    {"termios.h", {"drivers/link", "simulators"}},
    {"boost/asio", {"drivers/link", "schema/store", "daemon", "daemon/page"}},
    {"boost/beast", {"daemon", "daemon/page"}},
    {"toml++/", {"schema/toml", "daemon", "simulators"}},
    {"boost/math", {"rules"}},
    {"boost/multiprecision", {"rules", "drivers"}},
    {"CLI/", {"daemon", "cli"}},
    {"spdlog/", {"daemon", "daemon/page"}},
    {"curses.h", {"cli"}},
    {"nlohmann/", {"schema/json"}},
    {"re2/", {"drivers", "schema/profile"}},
    {"libevdev/", {"drivers/link"}},
    {"linux/input", {"drivers"}},
};

/// The folder of the table that a path inside the house belongs to; empty where it is in none.
std::string room_of(const std::string& path) {
  std::string room;
  for (const auto& [folder, allowed] : kArrows)
    if (path.starts_with(folder + "/") && folder.size() > room.size()) room = folder;
  return room;
}

std::vector<fs::path> sources() {
  std::vector<fs::path> files;
  for (const char* top : {"rules", "drivers", "schema", "daemon", "cli", "simulators"})
    for (const auto& entry : fs::recursive_directory_iterator(kRoot / top))
      if (entry.path().extension() == ".cpp" || entry.path().extension() == ".hpp") files.push_back(entry.path());
  return files;
}

std::vector<std::string> includes_of(const fs::path& file) {
  static const std::regex pattern(R"re(^\s*#\s*include\s*([<"])([^>"]+)[>"])re");
  std::vector<std::string> includes;
  std::ifstream stream(file);
  for (std::string line; std::getline(stream, line);)
    if (std::smatch match; std::regex_search(line, match, pattern)) includes.push_back(match[1].str() + match[2].str());
  return includes;
}

TEST(Tree, EveryIncludeOfOursFollowsTheArrows) {
  std::size_t arrows = 0;
  for (const fs::path& file : sources()) {
    const std::string path = fs::relative(file, kRoot);
    const std::string room = room_of(path);
    ASSERT_NE(room, "") << path << " is in no folder of the table";
    for (const std::string& include : includes_of(file)) {
      if (include[0] != '"') continue;
      ++arrows;
      const std::string target = room_of(include.substr(1));
      ASSERT_NE(target, "") << path << " includes " << include.substr(1) << ", which is in no folder of the table";
      EXPECT_TRUE(kArrows.at(room).contains(target))
          << path << " includes " << include.substr(1) << ": " << room << " must not see " << target;
    }
  }
  EXPECT_GT(arrows, 200U);
}

TEST(Tree, LibrariesStayInTheirRooms) {
  for (const fs::path& file : sources()) {
    const std::string path = fs::relative(file, kRoot);
    for (const std::string& include : includes_of(file))
      for (const auto& [library, rooms] : kLibraries) {
        const bool seen = include[0] == '<' && include.substr(1).starts_with(library);
        EXPECT_TRUE(!seen || rooms.contains(room_of(path))) << path << " includes " << include.substr(1);
      }
  }
}

TEST(Tree, TheRulesSeeNeitherClockNorFileNorSocket) {
  const std::set<std::string> forbidden = {"chrono", "ctime",  "fstream", "filesystem", "iostream", "thread",
                                           "mutex",  "random", "future",  "unistd.h",   "time.h",   "cstdio"};
  for (const fs::path& file : sources()) {
    if (!std::string(fs::relative(file, kRoot)).starts_with("rules/")) continue;
    for (const std::string& include : includes_of(file))
      EXPECT_FALSE(forbidden.contains(include.substr(1)) || include.starts_with("<sys/"))
          << file << " includes " << include.substr(1);
  }
}

/// Adding a wire format changes one folder, one line of the catalogue and one encoder of the simulators.
TEST(Tree, AFormatIsSeenByItsOwnFolderAndByOneLineOfTheCatalogue) {
  std::map<std::string, std::set<std::string>>
      seen_by;  // a folder of a format, and who includes a header of it from outside
  for (const auto& entry : fs::directory_iterator(kRoot / "drivers"))
    if (entry.is_directory() && fs::exists(entry.path() / "README.md"))
      seen_by["drivers/" + entry.path().filename().string()];
  ASSERT_GE(seen_by.size(), 5U);
  for (const fs::path& file : sources()) {
    const std::string path = fs::relative(file, kRoot);
    for (const std::string& include : includes_of(file)) {
      const auto format = seen_by.find(fs::path(include.substr(1)).parent_path().string());
      if (format != seen_by.end() && !path.starts_with(format->first + "/")) format->second.insert(path);
    }
  }
  for (const auto& [format, files] : seen_by) {
    // Keys are typed, not framed: the link maps them to characters, `gauge add` checks their names, and the frames are
    // those of lines.
    const std::set<std::string> keys = {"drivers/link/keys_link.cpp", "daemon/acts/gauge_words.cpp"},
                                one = {"drivers/catalog.cpp"};
    EXPECT_EQ(files, format == "drivers/keys" ? keys : one) << format;
  }
}

TEST(Tree, AProfileIsNamedByNoSource) {
  const std::set<std::string> formats = {"line", "query", "modbus", "keys", "bcd13", "bin24", "pedal"};
  for (const auto& entry : fs::directory_iterator(kRoot / "drivers/profiles")) {
    const std::string name = entry.path().stem();
    if (formats.contains(name)) continue;
    for (const fs::path& file : sources()) {
      std::ifstream stream(file);
      const std::string text{std::istreambuf_iterator<char>(stream), {}};
      EXPECT_EQ(text.find("\"" + name + "\""), std::string::npos) << file << " names " << name;
    }
  }
}

TEST(Tree, NothingElseStandsAtTheTop) {
  const std::set<std::string> wanted = {"CMakeLists.txt", "CMakePresets.json",
                                        "README.md",      "DEVELOPERS.md",
                                        "LICENSE",        "rules",
                                        "drivers",        "schema",
                                        "daemon",         "cli",
                                        "simulators",     "tests",
                                        "build"};
  for (const auto& entry : fs::directory_iterator(kRoot)) {
    const std::string name = entry.path().filename();
    if (name.front() == '.') continue;
    EXPECT_TRUE(wanted.contains(name)) << name;
  }
}

}  // namespace
