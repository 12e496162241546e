#include "cli/engine_choice.hpp"

#include <vector>

#include "rules/joined.hpp"
#include "rules/nearest.hpp"

namespace tenth::cli {

Result<const Engine*> engine_of(const Bench& bench, const std::string& named) {
  if (named.empty() && !bench.engine)
    return refuse("no_engine", "no engine is in use", "name one with --engine, or 'tenth engine use NAME'");
  const std::string& name = named.empty() ? *bench.engine : named;
  if (const auto found = bench.engines.find(name); found != bench.engines.end()) return &found->second;
  std::vector<std::string> names;
  for (const auto& [known, engine] : bench.engines) names.push_back(known);
  const auto near = nearest(name, names);
  return refuse("unknown_engine", "there is no engine " + quoted(name),
                near.empty() ? "engines are: " + joined(names) : "did you mean " + quoted(near) + "?");
}

}  // namespace tenth::cli
