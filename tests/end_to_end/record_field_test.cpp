// Every kind of field of a record that is changed by one digit or letter makes it false.
#include <regex>

#include "tests/end_to_end/bench.hpp"
#include "tests/end_to_end/engines.hpp"

namespace acceptance {
namespace {

class RecordField : public Bench {
 protected:
  void SetUp() override {
    Bench::SetUp();
    engine(single, "other");
    engine(inline_four);
    done({"operator", "add", "ann"});
    gauge("mic", {"--unit", "mm", "--uncertainty", "0.002"});
    gauge("dial", {"--unit", "mm", "--reads", "deviation"});
    done({"gauge", "calibrate", "mic", "--on", "2026-01-01", "--due", "2030-01-01", "--certificate", "C1"});
    done({"temperature", "--part", "25", "--gauge", "22"});
    done({"round", "main_journal"});
    for (const char* size : {"53.990", "53.991", "53.992", "53.990", "53.993"}) press("mic", line(size));
    done({"master", "dial", "54.000"});
    cable("dial").send(line("0.000"));
    watch_->next("setting");
    press_at({"main_bearing", "1", "vertical"}, "dial", line("0.040"));
    press_at({"main_bearing", "1", "oblique"}, "dial", line("5.041"));
    press_at({"bore", "1", "top", "pin"}, "mic", line("86.010"));
    done({"at", "oil_feed_clear"});
    done({"enter", "yes"});
    record_ = json::parse(done({"export", "--format", "json"}));
    ASSERT_EQ(audited(record_), 0);
  }
  int audited(const json& record) const {
    return tenth({"audit", "--record", write("changed.json", record.dump())}).status;
  }
  // The paths of the first and the last of each kind of leaf: indexes in arrays do not tell kinds apart.
  static std::map<std::string, std::vector<json::json_pointer>> leaves(const json& record) {
    std::map<std::string, std::vector<json::json_pointer>> kinds;
    const json flat = record.flatten();
    for (const auto& [path, value] : flat.items()) {
      auto& paths = kinds[std::regex_replace(path, std::regex("/[0-9]+"), "/#")];
      if (paths.size() == 2) paths.pop_back();
      paths.emplace_back(path);
    }
    return kinds;
  }
  static void change(json& leaf) {
    if (leaf.is_boolean()) {
      leaf = !leaf.get<bool>();
    } else if (leaf.is_number_integer()) {
      leaf = leaf.get<long long>() + 1;
    } else if (leaf.is_number()) {
      leaf = leaf.get<double>() + 0.001;
    } else if (leaf.is_string() && !leaf.get<std::string>().empty()) {
      char& last = leaf.get_ref<std::string&>().back();
      last = last == '1' ? '2' : '1';
    } else {
      leaf = 1;
    }
  }
  json record_;
};

TEST_F(RecordField, ChangedMakesTheRecordFalse) {
  int kinds = 0;
  for (const auto& [kind, paths] : leaves(record_)) {
    if (kind == "/made_at" || kind == "/made_by" || kind == "/program" || kind == "/seals") continue;
    ++kinds;
    for (const auto& path : paths) {
      json changed = record_;
      change(changed[path]);
      const int expected = kind == "/format" || kind == "/version" ? 4 : 1;
      EXPECT_EQ(audited(changed), expected) << path << ": " << record_[path] << " made " << changed[path];
    }
  }
  EXPECT_GT(kinds, 60) << "so many kinds of fields";
}

TEST_F(RecordField, TakenOutAddedOrInAnotherOrderMakesItFalse) {
  json changed = record_;
  changed["readings"].erase(0);
  EXPECT_EQ(audited(changed), 1);
  changed = record_;
  changed["readings"].push_back(record_["readings"][0]);
  EXPECT_EQ(audited(changed), 1);
  changed = record_;
  changed["readings"][0]["remark"] = "fine";
  EXPECT_EQ(audited(changed), 1);
  changed = record_;
  std::swap(changed["check"]["features"][0], changed["check"]["features"][1]);
  EXPECT_EQ(audited(changed), 1);
  for (const char* key : {"check", "engine", "entries", "format", "head", "ledger", "readings", "version"}) {
    changed = record_;
    changed.erase(key);
    EXPECT_EQ(audited(changed), 4) << key;
  }
}

}  // namespace
}  // namespace acceptance
