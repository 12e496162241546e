#include "tests/end_to_end/bench.hpp"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <thread>

namespace acceptance {
namespace {

std::string joined(const Words& words) {
  std::string text;
  for (const std::string& word : words) text += " " + word;
  return text;
}

Words operator+(Words left, const Words& right) {
  left.insert(left.end(), right.begin(), right.end());
  return left;
}

}  // namespace

// Nothing outside the home is read or written: the XDG folders lie in it, and TENTH_SOCKET names its socket.
ColdBench::ColdBench() : daemon_(home_) {
  for (const char* name : {"HOME", "XDG_CONFIG_HOME", "XDG_STATE_HOME", "XDG_DATA_HOME", "XDG_RUNTIME_DIR"}) {
    setenv(name, home_.c_str(), 1);
  }
  setenv("TENTH_SOCKET", daemon_.socket().c_str(), 1);
  setenv("NO_COLOR", "1", 1);
  std::filesystem::create_directory(daemon_.state());
  write("tenthd.toml", "");
}

std::filesystem::path ColdBench::write(const std::string& name, const std::string& text) const {
  std::ofstream(home_ / name, std::ios::binary) << text;
  return home_ / name;
}

Ran ColdBench::tenth(const Words& words) {
  return run(Words{tenth_path()} + words);
}

std::string ColdBench::done(const Words& words) {
  const Ran ran = tenth(words);
  EXPECT_EQ(ran.status, 0) << "tenth" << joined(words) << "\n" << ran.out << ran.err;
  return ran.out;
}

json ColdBench::asked(const Words& words, int status) {
  const Ran ran = tenth(Words{"--json"} + words);
  EXPECT_EQ(ran.status, status) << "tenth --json" << joined(words) << "\n" << ran.out << ran.err;
  json document = json::parse(ran.out, nullptr, false);
  EXPECT_FALSE(document.is_discarded()) << "not one JSON document: tenth --json" << joined(words) << "\n" << ran.out;
  return document;
}

std::string ColdBench::refused(const Words& words, int status) {
  const Ran text = tenth(words);
  EXPECT_EQ(text.status, status) << "tenth" << joined(words) << "\n" << text.out << text.err;
  EXPECT_EQ(text.out, "") << "tenth" << joined(words);
  EXPECT_EQ(std::count(text.err.begin(), text.err.end(), '\n'), 1) << "tenth" << joined(words) << "\n" << text.err;

  const Ran wire = tenth(Words{"--json"} + words);
  EXPECT_EQ(wire.status, status) << "tenth --json" << joined(words) << "\n" << wire.out << wire.err;
  EXPECT_EQ(wire.out, "") << "tenth --json" << joined(words);
  const json error = json::parse(wire.err, nullptr, false);
  EXPECT_TRUE(error.is_object()) << "tenth --json" << joined(words) << "\n" << wire.err;
  for (const char* key : {"code", "message", "do"}) EXPECT_TRUE(error.contains(key)) << key << ": " << wire.err;
  return text.err;
}

void Bench::SetUp() {
  write("tenthd.toml", config());
  daemon_.start();
  if (!HasFatalFailure()) restart_watch();
}

void Bench::engine(const std::string& spec, const std::string& name) {
  done({"engine", "add", name, "--spec", write(name + ".toml", spec)});
  done({"engine", "use", name});
}

PtyGauge& Bench::gauge(const std::string& name, const Words& options, const std::string& profile) {
  auto& cable = cables_[name];
  cable = std::make_unique<PtyGauge>(home_ / ("port-" + name));
  done(Words{"gauge", "add", name, "--port", cable->port(), "--profile", profile} + options);
  watch_->next("gauge", [&](const json& event) { return event["gauge"] == name && event["state"] == "open"; });
  return *cable;
}

PtyGauge& Bench::cable(const std::string& name) {
  return *cables_.at(name);
}

void Bench::wait_open(const std::string& gauge) {
  const Deadline until = in(std::chrono::seconds(15));
  while (pick(asked({"status"}).value("gauges", json::array()), {{"name", gauge}}).value("state", "") != "open") {
    ASSERT_LT(std::chrono::steady_clock::now(), until) << gauge << " is not open in time";
    std::this_thread::sleep_for(Millis(20));
  }
}

json Bench::press(const std::string& gauge, const std::string& frame) {
  cable(gauge).send(frame);
  return watch_->next("reading", [&](const json& event) { return event.value("gauge", "") == gauge; });
}

json Bench::press_at(const Words& place, const std::string& gauge, const std::string& frame) {
  done(Words{"at"} + place);
  return press(gauge, frame);
}

std::string doubts_of(const json& reading) {
  std::vector<std::string> doubts;
  for (const json& doubt : reading.value("doubts", json::array())) doubts.push_back(doubt);
  std::sort(doubts.begin(), doubts.end());
  std::string text;
  for (const std::string& doubt : doubts) text += (text.empty() ? "" : " ") + doubt;
  return text;
}

json reading_of(const json& readings, const json& seq) {
  return pick(readings, {{"seq", seq}});
}

json pick(const json& array, const json& wanted) {
  for (const json& one : array) {
    const auto same = [&](const auto& item) { return one.contains(item.key()) && one[item.key()] == item.value(); };
    const auto items = wanted.items();
    if (std::all_of(items.begin(), items.end(), same)) return one;
  }
  ADD_FAILURE() << "none with " << wanted << " in " << array.dump(1);
  return json::object();
}

}  // namespace acceptance
