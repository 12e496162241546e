#include "daemon/acts/acts.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/params.hpp"

namespace tenth {

/// Advice changes nothing by itself, and neither does a decision: it is kept with its reason. The remedy's id is that
/// of the advice as it was read; remedies are worked out anew each time, so it cannot be looked up.
Decided make_decision(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string text, params.text("text"));
  TENTH_TRY(const std::optional<std::string> remedy, params.maybe_text("remedy"));
  TENTH_TRY(const std::string reason, reason_of(params));
  TENTH_TRY(const Engine* const engine, engine_or_used(draft.bench(), std::nullopt));
  const Json decision = {{"engine", engine->name}, {"text", text}, {"remedy", or_null(remedy)}, {"reason", reason}};
  Json body = decision;
  body["spec"] = engine->spec_seq;
  const std::int64_t seq = draft.append("decide", std::move(body));
  return [decision, seq](const View&) {
    Json answer = decision;
    answer["seq"] = seq;
    return answer;
  };
}

}  // namespace tenth
