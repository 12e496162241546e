#include "daemon/config.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "tests/support/folder.hpp"

namespace tenth {
namespace {

const Config kDefault{"/state", "/socket", {}, {}};

std::string message(const std::string& text) {
  const auto read = read_config(text, "tenthd.toml", kDefault);
  if (read) return "read";
  EXPECT_EQ(read.error().exit, Exit::words);
  return read.error().message + "; " + read.error().remedy;
}

TEST(Config, EveryKeyIsTaken) {
  const auto config = read_config(
      "state = \"/a\"\nsocket = \"/b\"\nhttp = \"off\"\n[intake]\nsettle_ms = 250\nsetting_life_h = "
      "8\ntemperature_life_h = 2\n",
      "f", kDefault);
  ASSERT_TRUE(config) << config.error().message;
  EXPECT_EQ(config->state, "/a");
  EXPECT_EQ(config->socket, "/b");
  EXPECT_EQ(config->intake.settle_ms, 250);
  EXPECT_EQ(config->intake.setting_life_h, 8);
  EXPECT_EQ(config->intake.temperature_life_h, 2);
}

TEST(Config, AnOverdueGaugeIsAnAlertOrADoubt) {
  EXPECT_FALSE(read_config("", "f", kDefault)->intake.overdue_suspect);
  EXPECT_FALSE(read_config("[gauge]\noverdue = \"alert\"\n", "f", kDefault)->intake.overdue_suspect);
  EXPECT_TRUE(read_config("[gauge]\noverdue = \"suspect\"\n", "f", kDefault)->intake.overdue_suspect);
  EXPECT_EQ(message("[gauge]\noverdue = \"void\"\n"),
            "tenthd.toml:2:11: `void` is nothing that an overdue gauge can lead to; alert or suspect");
  EXPECT_EQ(message("[gauge]\noverdu = \"suspect\"\n"),
            "tenthd.toml:2:1: unknown key `overdu`; did you mean `overdue`?");
  EXPECT_EQ(message("gauge = 1\n").substr(0, 15), "tenthd.toml:1:9");
}

TEST(Config, AlertsReachAProgramAUrlAndTheSession) {
  const Config silent = read_config("", "f", kDefault).value();
  EXPECT_TRUE(silent.alert.program.empty());
  EXPECT_FALSE(silent.alert.url);
  EXPECT_TRUE(silent.alert.in_session.sound);
  EXPECT_FALSE(silent.alert.in_session.desktop);
  const auto config = read_config(
      "[alert]\nprogram = [\"/usr/bin/pager\", \"to ann\"]\nurl = \"http://lamp:81/on\"\nsound = false\ndesktop = "
      "true\n",
      "f", kDefault);
  ASSERT_TRUE(config) << config.error().message;
  EXPECT_EQ(config->alert.program, (std::vector<std::string>{"/usr/bin/pager", "to ann"}));
  EXPECT_EQ(config->alert.url, (HttpTarget{"lamp", "81", "/on"}));
  EXPECT_FALSE(config->alert.in_session.sound);
  EXPECT_TRUE(config->alert.in_session.desktop);
}

TEST(Config, AnAlertSinkThatCannotBeNamesItsLine) {
  EXPECT_EQ(message("[alert]\nprogram = [\"pager\"]\n"),
            "tenthd.toml:2:11: `pager` is no whole path of a program; begin it with a slash: no shell looks for it");
  EXPECT_EQ(message("[alert]\nprogram = []\n"), "tenthd.toml:2:11: this is no list of texts; write [\"...\", \"...\"]");
  EXPECT_EQ(message("[alert]\nprogram = [\"/bin/true\", 3]\n").substr(0, 36), "tenthd.toml:2:25: this is no text; g");
  EXPECT_EQ(message("[alert]\nurl = \"https://lamp/\"\n"),
            "tenthd.toml:2:7: `url`: https is not spoken here; give a plain http URL of a relay on this machine, which "
            "speaks https");
  EXPECT_EQ(message("[alert]\nsound = \"on\"\n"),
            "tenthd.toml:2:9: this is neither true nor false; write true or false");
  EXPECT_EQ(message("[alert]\ndesctop = true\n"), "tenthd.toml:2:1: unknown key `desctop`; did you mean `desktop`?");
  EXPECT_EQ(message("alert = true\n"), "tenthd.toml:1:9: `alert` is a table; write [alert]");
}

TEST(Config, AnEmptyFileChangesNothing) {
  const auto config = read_config("", "f", kDefault);
  ASSERT_TRUE(config);
  EXPECT_EQ(config->state, "/state");
  EXPECT_EQ(config->intake.settle_ms, 300);
}

TEST(Config, AnUnknownKeyNamesItsLineAndTheNearest) {
  EXPECT_EQ(message("state = \"/a\"\nsockt = \"/b\"\n"),
            "tenthd.toml:2:1: unknown key `sockt`; did you mean `socket`?");
  EXPECT_NE(message("[intake]\nsettle = 3\n").find("tenthd.toml:2:1"), std::string::npos);
  EXPECT_EQ(message("[page]\nhost = []\n"), "tenthd.toml:2:1: unknown key `host`; did you mean `hosts`?");
}

TEST(Config, AWrongValueNamesItsLine) {
  EXPECT_NE(message("[intake]\nsettle_ms = \"soon\"\n").find("tenthd.toml:2:13"), std::string::npos);
  EXPECT_NE(message("[intake]\nsettle_ms = -1\n").find("whole number"), std::string::npos);
  EXPECT_NE(message("[intake]\nsetting_life_h = 1000001\n").find("whole number"), std::string::npos);
  EXPECT_NE(message("[intake]\ntemperature_life_h = 4.0\n").find("whole number"), std::string::npos);
  EXPECT_NE(message("socket = \"\"\n").find("no text"), std::string::npos);
  EXPECT_NE(message("state = 3\n").find("no text"), std::string::npos);
  EXPECT_NE(message("intake = 3\n").find("table"), std::string::npos);
  EXPECT_NE(message("http = \"everywhere\"\n").find("127.0.0.1:8642"), std::string::npos);
  EXPECT_NE(message("[page]\nhosts = \"bench\"\n").find("tenthd.toml:2:9"), std::string::npos);
  EXPECT_NE(message("[page]\nhosts = [\"bench\", 7]\n").find("no text"), std::string::npos);
  EXPECT_NE(message("[page]\nhosts = [\"bench.local:8642\"]\n").find("tenthd.toml:2:10"), std::string::npos);
  EXPECT_NE(message("[page]\ntoken_file = 7\n").find("no text"), std::string::npos);
  EXPECT_NE(message("page = 1\n").find("table"), std::string::npos);
}

TEST(Config, BrokenTomlNamesItsLine) {
  EXPECT_NE(message("state = \n").find("tenthd.toml:1:"), std::string::npos);
}

TEST(Config, AFileIsReadAndOptionsBeatIt) {
  const Folder folder;
  const std::filesystem::path file = folder / "tenthd.toml";
  std::ofstream(file) << "state = \"/a\"\nsocket = \"/b\"\n";
  Options options;
  options.config = file.string();
  options.socket = "/y";
  const auto config = settle_config(options);
  ASSERT_TRUE(config) << config.error().message;
  EXPECT_EQ(config->state, "/a");
  EXPECT_EQ(config->socket, "/y");
}

TEST(Config, AFileThatIsNamedMustBeThere) {
  Options options;
  options.config = "/nowhere/tenthd.toml";
  EXPECT_EQ(settle_config(options).error().exit, Exit::refused);
  options.config = std::filesystem::temp_directory_path().string();
  EXPECT_EQ(settle_config(options).error().exit, Exit::refused);
}

TEST(Config, OptionsBeatEverything) {
  Options options;
  options.state = "/x";
  options.socket = "/y";
  const auto config = settle_config(options);
  ASSERT_TRUE(config);
  EXPECT_EQ(config->state, "/x");
  EXPECT_EQ(config->socket, "/y");
}

TEST(Config, ThePageIsOffUnlessAskedFor) {
  EXPECT_FALSE(read_config("", "f", kDefault)->page.at);
  EXPECT_FALSE(read_config("http = \"off\"\n", "f", kDefault)->page.at);
  const auto config = read_config(
      "http = \"127.0.0.1:8642\"\n[page]\nhosts = [\"bench\", \"10.0.0.7\", \"[fd00::5]\"]\ntoken_file = \"/t\"\n", "f",
      kDefault);
  ASSERT_TRUE(config) << config.error().message;
  EXPECT_EQ(config->page.at->port(), 8642);
  EXPECT_EQ(config->page.hosts, (std::vector<std::string>{"bench", "10.0.0.7", "[fd00::5]"}));
  EXPECT_EQ(config->page.token_file, "/t");
}

TEST(Config, TheOptionForThePageBeatsTheFile) {
  const Folder folder;
  const std::filesystem::path file = folder / "tenthd.toml";
  std::ofstream(file) << "http = \"127.0.0.1:8642\"\n";
  Options options;
  options.config = file.string();
  EXPECT_TRUE(settle_config(options)->page.at);
  options.http = "off";
  EXPECT_FALSE(settle_config(options)->page.at);
  options.http = "everywhere:80";
  EXPECT_EQ(settle_config(options).error().exit, Exit::words);
}

}  // namespace
}  // namespace tenth
