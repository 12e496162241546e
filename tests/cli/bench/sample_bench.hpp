#pragma once

#include "schema/json/json.hpp"

namespace tenth::cli {

inline Json sample_place() {
  return {{"gauge", nullptr},
          {"engine", "J18"},
          {"feature", "bore"},
          {"index", 3},
          {"label", "3"},
          {"level", "top"},
          {"axis", "thrust"},
          {"where", nullptr},
          {"done", 12},
          {"of", 36},
          {"words", "bore 3 top thrust"},
          {"next", "bore 3 top pin"}};
}

inline Json sample_last() {
  return {{"seq", 41},
          {"gauge", "bore-gauge"},
          {"feature", "bore"},
          {"index", 2},
          {"label", "2"},
          {"level", "bottom"},
          {"axis", "pin"},
          {"state", "kept"},
          {"verdict", "in"},
          {"size_verdict", "in"},
          {"words", "bore 2 bottom pin"},
          {"why", Json::array()},
          {"reason", nullptr},
          {"against", "two tenths under the upper limit"},
          {"shown_unit", "in"},
          {"shown", {{"size", "3.7813"}, {"low", "3.7805"}, {"high", "3.7815"}, {"target", nullptr}}}};
}

inline Json sample_plan() {
  Json indexes = Json::array();
  for (int index = 1; index <= 6; ++index)
    indexes.push_back({{"index", index},
                       {"label", std::to_string(index)},
                       {"state", index == 1   ? "in"
                                 : index == 2 ? "doubtful"
                                 : index == 3 ? "part"
                                 : index == 4 ? "suspect"
                                              : "unread"}});
  return Json::array({{{"feature", "bore"}, {"indexes", indexes}}});
}

/// What the daemon answers to `bench` (`schema/wire.md`) in the middle of a round over the bores of a six.
inline Json sample_bench() {
  return {{"seq", 90},
          {"engine", "J18"},
          {"title", "Straight six"},
          {"unit", "in"},
          {"stage", "as found"},
          {"operator", "ann"},
          {"places", Json::array({sample_place()})},
          {"last", Json::array({sample_last()})},
          {"plan", sample_plan()},
          {"suspects", 0},
          {"alerts", Json::array()},
          {"gauges", Json::array({{{"name", "bore-gauge"},
                                   {"state", "open"},
                                   {"why", ""},
                                   {"awaits", nullptr},
                                   {"overdue", false},
                                   {"setting", {{"age_s", 240}}}}})}};
}

}  // namespace tenth::cli
