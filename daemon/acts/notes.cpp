#include "daemon/acts/acts.hpp"
#include "daemon/acts/lookup.hpp"
#include "daemon/params.hpp"
#include "rules/figure.hpp"
#include "schema/ledger/place_json.hpp"
#include "schema/store/hash.hpp"

namespace tenth {
namespace {

/// What a note is about: the engine and the place that stand, as far as there are any.
Json about(const Bench& bench, const std::optional<std::string>& gauge) {
  const Standing& standing = standing_of(bench, gauge);
  const auto engine = standing.engine ? standing.engine : bench.engine;
  Json body = {{"gauge", or_null(gauge)}, {"engine", or_null(engine)}, {"label", nullptr}};
  put_place(body, standing.place);
  if (standing.place)
    body["label"] = label_of(*bench.engines.at(*engine).spec->find(standing.place->feature), standing.place->index);
  return body;
}

}  // namespace

Decided add_note(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string text, params.words("text"));
  TENTH_TRY(const std::optional<std::string> name, params.maybe_text("gauge"));
  TENTH_TRY(const std::optional<std::string> gauge, maybe_gauge(draft.bench(), name));
  Json said = about(draft.bench(), gauge);
  said["text"] = text;
  Json body = said;
  if (!said["engine"].is_null()) body["spec"] = draft.bench().engines.at(said["engine"].get<std::string>()).spec_seq;
  if (!said["feature"].is_null()) body["place"] = standing_of(draft.bench(), gauge).seq;
  said["seq"] = draft.append("note", std::move(body));
  return [said](const View&) { return said; };
}

/// Only what the file was is kept: its name, its length and its digest.
Decided attach_file(Draft& draft, const Json& object) {
  const Params params(object);
  TENTH_TRY(const std::string file, params.text("file"));
  TENTH_TRY(const std::string digest, params.text("sha256"));
  TENTH_TRY(const std::optional<std::int64_t> bytes, params.maybe_number("bytes"));
  if (!digest_from_hex(digest)) return wrong_words("sha256", "that is no SHA-256", "give 64 hex digits");
  if (bytes.value_or(-1) < 0) return wrong_words("bytes", "the length of the file is missing", "give it in bytes");
  Json said = about(draft.bench(), std::nullopt);
  said.erase("gauge");
  said.update({{"file", file}, {"bytes", *bytes}, {"sha256", digest}});
  Json body = said;
  if (!said["engine"].is_null()) body["spec"] = draft.bench().engines.at(said["engine"].get<std::string>()).spec_seq;
  said["seq"] = draft.append("attach", std::move(body));
  return [said](const View&) { return said; };
}

}  // namespace tenth
