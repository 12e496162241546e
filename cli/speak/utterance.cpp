#include "cli/speak/utterance.hpp"

#include "rules/names.hpp"

namespace tenth::cli {
namespace {

constexpr Names<Rank, 4> kRanks{{"word", "stored", "suspect", "stop"}};

}  // namespace

Json utterance_json(const Utterance& utterance) {
  Json json = {{"rank", kRanks.of(utterance.rank)}, {"sound", nullptr}, {"text", nullptr}, {"notice", nullptr}};
  if (utterance.sound) json["sound"] = name(*utterance.sound);
  if (!utterance.text.empty()) json["text"] = utterance.text;
  if (utterance.notice) json["notice"] = {{"urgent", utterance.notice->urgent}, {"text", utterance.notice->text}};
  return json;
}

}  // namespace tenth::cli
