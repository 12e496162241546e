#include "cli/context.hpp"

#include <ostream>

namespace tenth::cli {

Context::Context(World& outside, Options given)
    : world(outside), options(std::move(given)), ink(wants_colour(outside)) {}

Result<Json> Context::call(const std::string& method, const Json& params, std::chrono::seconds patience) {
  if (!client_) {
    auto client = Client::connect(socket_path(options.socket, world));
    if (!client) return tl::unexpected(client.error());
    client_ = std::move(*client);
  }
  return client_->call(method, params, patience);
}

Result<Json> Context::next_event() {
  return client_->next_event();
}

Result<Exit> Context::ask(const std::string& method, const Json& params, Show show) {
  const auto result = call(method, params);
  if (!result) return tl::unexpected(result.error());
  if (options.json)
    print(*result);
  else
    show(*this, *result);
  return Exit::done;
}

void Context::print(const Json& document) {
  world.out << canonical(document) << '\n' << std::flush;
}

Json Context::unit_name() const {
  return options.unit ? Json(std::string(name(*options.unit))) : Json(nullptr);
}

Unit Context::unit_for(const Json& theirs) const {
  if (options.unit) return *options.unit;
  return theirs == "in" ? Unit::in : Unit::mm;
}

}  // namespace tenth::cli
