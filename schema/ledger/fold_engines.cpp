#include <stdexcept>

#include "schema/ledger/fold_parts.hpp"
#include "schema/spec/spec_file.hpp"

namespace tenth {

/// A spec comes before the engine that is judged by it; its text is parsed again, so spec and results cannot part.
void apply_spec(Bench& bench, const Entry& entry) {
  auto spec = parse_spec(entry.body.at("text").get<std::string>(), entry.body.at("file").get<std::string>());
  if (!spec) throw std::runtime_error("a stored spec cannot be read: " + spec.error().message);
  Engine& engine = bench.engines[entry.body.at("engine").get<std::string>()];
  engine.name = entry.body.at("engine").get<std::string>();
  engine.spec = std::make_shared<const Spec>(std::move(*spec));
  engine.spec_seq = entry.seq;
}

/// The builder's act of adding; the spec entry before it has made the engine.
void apply_engine(Bench& bench, const Entry& entry) {
  if (!bench.engines.contains(entry.body.at("engine").get<std::string>()))
    throw std::runtime_error("an engine without a spec");
}

void apply_engine_use(Bench& bench, const Entry& entry) {
  bench.engine = entry.body.at("engine").get<std::string>();
  if (bench.warmths.engine != *bench.engine) bench.warmths = {};
  bench.common = {};
  bench.common.seq = entry.seq;
  bench.common.engine = bench.engine;
}

void apply_stage(Bench& bench, const Entry& entry) {
  Engine& engine = bench.engines.at(entry.body.at("engine").get<std::string>());
  const Stage stage{entry.body.at("name").get<std::string>(), entry.seq, entry.body.at("carry").get<bool>(),
                    entry.body.at("time").get<std::string>()};
  for (const Json& item : entry.body.at("features")) {
    const auto feature = item.get<std::string>();
    auto& stages = engine.stages[feature];
    if (stages.empty()) stages.push_back({});
    stages.push_back(stage);
    if (!stage.carry) std::erase_if(engine.answers, [&](const auto& answer) { return answer.first.first == feature; });
  }
}

/// Told for some features, or for all: then what was told of single ones ends.
void apply_temperature(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  Temperatures told;
  told.entry = entry.seq;
  told.part = parse_temperature(body.at("part").get<std::string>()).value();
  if (const auto gauge = text_at(body, "gauge_at")) told.gauge = parse_temperature(*gauge).value();
  if (const auto within = text_at(body, "within")) told.within = parse_within(*within).value();
  bench.temperatures[entry.seq] = {told, body.at("time").get<std::string>()};
  const Json& features = body.at("features");
  const auto engine = body.at("engine").get<std::string>();
  if (features.empty() || bench.warmths.engine != engine) bench.warmths = {engine, {}};
  if (features.empty()) bench.warmths.by_feature[""] = entry.seq;
  for (const Json& feature : features) bench.warmths.by_feature[feature.get<std::string>()] = entry.seq;
}

}  // namespace tenth
