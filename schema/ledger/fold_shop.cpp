#include "rules/joined.hpp"
#include "rules/length.hpp"
#include "schema/ledger/fold_parts.hpp"

namespace tenth {
namespace {

std::vector<std::string> features_of(const Entry& entry) {
  return entry.body.at("features").get<std::vector<std::string>>();
}

}  // namespace

/// Said for the stage that the feature is in; a later stage asks for it again.
void apply_setup(Bench& bench, const Entry& entry) {
  const auto feature = entry.body.at("feature").get<std::string>();
  engine_of(bench, entry).set_up[feature].insert(seq_at(entry.body, "stage_entry").value_or(0));
  note_choice(bench, entry, feature + ": " + text_at(entry.body, "setup").value_or("set up"));
}

void apply_send(Bench& bench, const Entry& entry) {
  const Json& body = entry.body;
  Sent sent;
  sent.seq = entry.seq;
  sent.time = body.at("time").get<std::string>();
  sent.to = body.at("to").get<std::string>();
  sent.ask = body.at("ask").get<std::string>();
  if (const auto size = length_at(body, "size_pm"))
    sent.size = AskedSize{*size, length_at(body, "within_pm").value_or(Length())};
  for (const std::string& feature : features_of(entry)) engine_of(bench, entry).sent[feature] = sent;
  note_choice(bench, entry, joined(features_of(entry)) + " sent to " + sent.to + ": " + sent.ask);
}

void apply_receive(Bench& bench, const Entry& entry) {
  for (const std::string& feature : features_of(entry)) engine_of(bench, entry).sent.at(feature).received = entry.seq;
  note_choice(bench, entry, joined(features_of(entry)) + " came back");
}

}  // namespace tenth
