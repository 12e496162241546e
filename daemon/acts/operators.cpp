#include "daemon/acts/acts.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/params.hpp"
#include "rules/nearest.hpp"

namespace tenth {

Decided operator_add(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string asked, params.text("name"));
  TENTH_TRY(const std::string name, checked_name(asked, "an operator"));
  TENTH_TRY(const std::optional<std::string> user, params.maybe_text("user"));
  if (draft.bench().operators.contains(name))
    return refuse("operator_exists", "there is an operator `" + name + "` already", "choose another name");
  for (const auto& [other, known] : draft.bench().operators)
    if (user && known.user == *user)
      return refuse("operator_exists", "the login `" + *user + "` is operator `" + other + "` already",
                    "give each operator a login of their own");
  draft.append("operator", {{"name", name}, {"user", or_null(user)}});
  const bool first = !draft.bench().operator_name;
  if (first) draft.append("operator_use", {{"name", name}, {"gauge", nullptr}});
  const Json answer = {{"operator", name}, {"user", or_null(user)}, {"in_use", first}};
  return [answer](const View&) { return answer; };
}

Decided operator_use(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string name, params.text("name"));
  TENTH_TRY(const std::optional<std::string> asked, params.maybe_text("gauge"));
  TENTH_TRY(const std::optional<std::string> gauge, maybe_gauge(draft.bench(), asked));
  if (!draft.bench().operators.contains(name)) {
    std::vector<std::string> known;
    for (const auto& [other, entry] : draft.bench().operators) known.push_back(other);
    const std::string near = nearest(name, known);
    return refuse("unknown_operator", "there is no operator `" + name + "`",
                  near.empty() ? "`tenth operator add NAME` makes one" : "did you mean `" + near + "`?");
  }
  draft.append("operator_use", {{"name", name}, {"gauge", or_null(gauge)}});
  const Json answer = {{"operator", name}, {"gauge", or_null(gauge)}};
  return [answer](const View&) { return answer; };
}

}  // namespace tenth
