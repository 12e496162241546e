#include "tests/bench/bare.hpp"

#include "schema/json/json.hpp"
#include "schema/store/hash.hpp"

namespace tenth::bench {

std::string reading_body() {
  Json body = {{"kind", "reading"},
               {"time", "2026-01-02T03:04:05.000006Z"},
               {"mono_ns", 81234567890},
               {"boot", "6f1c1ad3-7f0e-4f53-9a86-0a4f1a6c2b11"},
               {"salt", random_hex(8)},
               {"by", {{"user", "ann"}, {"uid", 1000}, {"via", "gauge"}}},
               {"operator", "ann"},
               {"engine", "job 41"},
               {"feature", "bore"},
               {"index", 3},
               {"level", "top"},
               {"axis", "thrust"},
               {"gauge", "bore gauge"},
               {"raw", "+00.0012 mm"},
               {"text", "+00.0012"},
               {"unit", "mm"},
               {"value_pm", 1'200'000},
               {"size_pm", 101'601'200'000},
               {"state", "kept"},
               {"doubts", Json::array()},
               {"source", "gauge"},
               {"stage", "as found"},
               {"spec", 3},
               {"gauge_entry", 5},
               {"setting", 17},
               {"calibration", nullptr},
               {"place", 41},
               {"stage_entry", nullptr},
               {"temperature", nullptr},
               {"operator_entry", 2},
               {"program", "tenthd 0.1"},
               {"arrived", "2026-01-02T03:04:05.000001Z"},
               {"dropped", 0},
               {"profile", hex(sha256("a profile"))}};
  body["note"] = std::string(900 - canonical(body).size(), 'x');
  return canonical(body);
}

}  // namespace tenth::bench
