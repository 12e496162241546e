#include "schema/speech/speech.hpp"

#include <algorithm>
#include <array>

namespace tenth {

std::span<const PhraseForm> phrase_forms() {
  static constexpr std::array kForms = {PhraseForm{"kept", "place size"},
                                        PhraseForm{"to_go", "distance"},
                                        PhraseForm{"past_target", "distance"},
                                        PhraseForm{"to_file", "distance"},
                                        PhraseForm{"filed_past", "distance"},
                                        PhraseForm{"same_again", ""},
                                        PhraseForm{"suspect", "place size why remedy"},
                                        PhraseForm{"suspect_short", "why"},
                                        PhraseForm{"remedy", "seq"},
                                        PhraseForm{"remedy_place", ""},
                                        PhraseForm{"remedy_setting", ""},
                                        PhraseForm{"remedy_again", ""},
                                        PhraseForm{"next", "place"},
                                        PhraseForm{"next_for", "place gauge"},
                                        PhraseForm{"to_set", "gauge"},
                                        PhraseForm{"recheck", "gauge"},
                                        PhraseForm{"round_done", ""},
                                        PhraseForm{"round_done_for", "gauge"},
                                        PhraseForm{"skipped", "count"},
                                        PhraseForm{"over", "distance"},
                                        PhraseForm{"under", "distance"},
                                        PhraseForm{"alert_out", "subject"},
                                        PhraseForm{"alert_doubtful", "subject"},
                                        PhraseForm{"alert_suspect", "subject"},
                                        PhraseForm{"alert_drift", "subject"},
                                        PhraseForm{"alert_overdue", "subject"},
                                        PhraseForm{"alert_temperature", "subject"},
                                        PhraseForm{"alert_gauge", "subject"},
                                        PhraseForm{"alert_claim", "subject"},
                                        PhraseForm{"alert_other", "subject"},
                                        PhraseForm{"again", "said"},
                                        PhraseForm{"alerts", "count"},
                                        PhraseForm{"voided", ""},
                                        PhraseForm{"kept_after_all", ""},
                                        PhraseForm{"answered", "place answer"},
                                        PhraseForm{"set", "gauge size"},
                                        PhraseForm{"checked", "gauge"},
                                        PhraseForm{"drifted", "gauge distance"},
                                        PhraseForm{"not_set", "gauge"},
                                        PhraseForm{"gauge_open", "gauge"},
                                        PhraseForm{"gauge_gone", "gauge"},
                                        PhraseForm{"gauge_silent", "gauge"},
                                        PhraseForm{"gauge_flooding", "gauge"},
                                        PhraseForm{"fault", "gauge why"},
                                        PhraseForm{"not_stored", ""},
                                        PhraseForm{"daemon_gone", ""},
                                        PhraseForm{"daemon_back", ""}};
  return kForms;
}

std::string fill(std::string_view phrase, const Speech::Words& blanks) {
  std::string text;
  while (true) {
    const std::size_t open = phrase.find('{'), close = phrase.find('}', open);
    text += phrase.substr(0, open);
    if (close == std::string_view::npos) return text;
    const auto found = blanks.find(phrase.substr(open + 1, close - open - 1));
    if (found != blanks.end()) text += found->second;
    phrase.remove_prefix(close + 1);
  }
}

std::string spoken_name(std::string_view name, const Speech& speech) {
  if (const auto found = speech.names.find(name); found != speech.names.end()) return found->second;
  std::string text(name);
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

}  // namespace tenth
