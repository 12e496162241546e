#include "daemon/draft.hpp"

#include <algorithm>
#include <array>

#include "schema/json/time.hpp"
#include "schema/store/hash.hpp"

namespace tenth {

std::int64_t Draft::append(const std::string& kind, Json body) {
  complete(kind, body);
  const Entry& entry = pending_.emplace_back(Entry{bench_.seq + 1, std::move(body), ""});
  apply(bench_, entry);
  note_touched(kind, entry.body);
  return entry.seq;
}

void Draft::complete(const std::string& kind, Json& body) const {
  body["kind"] = kind;
  body["time"] = rfc3339(now_.wall_us);
  body["mono_ns"] = now_.mono_ns;
  body["boot"] = boot_;
  body["salt"] = random_hex(8);
  body["by"] = {{"user", actor_.user}, {"uid", actor_.uid}, {"via", actor_.via}};
  if (body.contains("operator")) return;
  for (const auto& [name, known] : bench_.operators)
    if (actor_.via == "socket" && known.user == actor_.user && !known.user.empty()) body["operator"] = name;
  if (!body.contains("operator") && bench_.operator_name) body["operator"] = *bench_.operator_name;
}

void Draft::note_touched(const std::string& kind, const Json& body) {
  static constexpr std::array kFigures = {"reading", "answer", "void",    "keep", "move",    "doubt",
                                          "stage",   "spec",   "install", "mate", "resized", "setup"};
  const bool figures = std::find(kFigures.begin(), kFigures.end(), kind) != kFigures.end();
  if (figures && body.contains("engine") && body["engine"].is_string())
    touched_.insert(body["engine"].get<std::string>());
  if (kind == "calibration")
    for (const auto& [name, engine] : bench_.engines) touched_.insert(name);
  const bool new_reading = kind == "answer" || (kind == "reading" && body["engine"].is_string());
  if ((figures && !new_reading) || kind == "setting" || kind == "setting_void" || kind == "gauge" ||
      kind == "gauge_drop")
    bench_touched_ = true;
}

}  // namespace tenth
