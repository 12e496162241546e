// The fixture: a bench of its own for every test, with the real daemon, the real command line and gauges on
// pseudo-terminals.
#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <map>
#include <memory>
#include <string>

#include "tests/end_to_end/frames.hpp"
#include "tests/end_to_end/programs.hpp"
#include "tests/end_to_end/pty_gauge.hpp"
#include "tests/end_to_end/watch.hpp"
#include "tests/support/folder.hpp"

namespace acceptance {

// A home without a running daemon.
class ColdBench : public testing::Test {
 protected:
  ColdBench();

  std::filesystem::path write(const std::string& name, const std::string& text) const;
  // `tenth` with these words; global options come first.
  static Ran tenth(const Words& words);
  // The same, and it must be done.
  static std::string done(const Words& words);
  // The one JSON document that it prints; it must end with this status.
  static json asked(const Words& words, int status = 0);
  // The words must end with this status and one clear line, as text and as JSON; returns the text.
  static std::string refused(const Words& words, int status);

  tenth::Folder folder_;
  const std::filesystem::path& home_ = folder_.path();
  Daemon daemon_;
};

class Bench : public ColdBench {
 protected:
  void SetUp() override;
  // What tenthd.toml says. Frames may follow each other at once, as no test waits without need.
  virtual std::string config() const { return "[intake]\nsettle_ms = 0\n"; }

  // Takes the engine with this spec into use.
  void engine(const std::string& spec, const std::string& name = "E1");
  // A gauge on a pseudo-terminal, added and open.
  PtyGauge& gauge(const std::string& name, const Words& options = {}, const std::string& profile = "line");
  PtyGauge& cable(const std::string& name);
  void wait_open(const std::string& gauge);
  // The gauge's button: sends the frame and waits for the reading that comes of it.
  json press(const std::string& gauge, const std::string& frame);
  // `at` these words, then a press.
  json press_at(const Words& place, const std::string& gauge, const std::string& frame);
  void restart_watch() { watch_ = std::make_unique<Watch>(); }

  std::map<std::string, std::unique_ptr<PtyGauge>> cables_;
  std::unique_ptr<Watch> watch_;
};

inline std::string place_of(const json& event) {
  std::string place;
  for (const char* key : {"feature", "index", "level", "axis"}) {
    if (!event.contains(key) || event[key].is_null()) continue;
    place += (place.empty() ? "" : "/") + (event[key].is_string() ? event[key].get<std::string>() : event[key].dump());
  }
  return place;
}

// The doubts of a reading, in the order of the alphabet, joined with a blank.
std::string doubts_of(const json& reading);
// The reading with this seq, from `readings --all`.
json reading_of(const json& readings, const json& seq);
// The first element whose keys have these values.
json pick(const json& array, const json& wanted);

}  // namespace acceptance
