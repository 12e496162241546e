#include "schema/ledger/fold_parts.hpp"

namespace tenth {

void note_choice(Bench& bench, const Entry& entry, std::string text) {
  const Json& body = entry.body;
  bench.choices.push_back({entry.seq, body.at("engine").get<std::string>(), body.at("time").get<std::string>(),
                           std::move(text), who_did(body), text_at(body, "reason")});
}

}  // namespace tenth
