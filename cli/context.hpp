#pragma once

#include <optional>
#include <string>

#include "cli/client.hpp"
#include "cli/render/ink.hpp"
#include "cli/world.hpp"
#include "rules/length.hpp"
#include "schema/json/json.hpp"

namespace tenth::cli {

/// The options that every command has.
struct Options {
  std::string socket;
  std::optional<Unit> unit;
  bool json = false;
};

/// What a command works with: the outside, the common options, and the daemon, called upon first use.
class Context {
 public:
  Context(World& outside, Options given);

  Result<Json> call(const std::string& method, const Json& params = Json::object(),
                    std::chrono::seconds patience = Client::kPatience);
  Result<Json> next_event();
  /// Of the conversation, for a signal's handler; -1 before the first call.
  int descriptor() const { return client_ ? client_->descriptor() : -1; }

  /// The call's result: one JSON document with `--json`, else as `show` puts it.
  using Show = void (*)(Context& context, const Json& result);
  Result<Exit> ask(const std::string& method, const Json& params, Show show);

  void print(const Json& document);
  /// `--unit` for the daemon: its name, or null.
  Json unit_name() const;
  /// The unit to write lengths in, where `theirs` is the daemon's.
  Unit unit_for(const Json& theirs) const;

  World& world;
  const Options options;
  const Ink ink;

 private:
  std::optional<Client> client_;
};

}  // namespace tenth::cli
