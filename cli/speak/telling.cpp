#include "cli/speak/telling.hpp"

#include <algorithm>
#include <sstream>

#include "cli/render/text.hpp"

namespace tenth::cli {
namespace {

std::string with_blank(const std::string& first, const std::string& then) {
  return first + (first.empty() || then.empty() ? "" : " ") + then;
}

/// A whole number in words, anything else as the language has it.
std::string spoken_word(const Speech& speech, const std::string& word) {
  constexpr std::size_t kMostDigits = 9;
  const bool number = !word.empty() && word.size() <= kMostDigits &&
                      std::all_of(word.begin(), word.end(), [](char c) { return c >= '0' && c <= '9'; });
  return number ? spoken_count(std::stoll(word), speech.numbers) : spoken_name(word, speech);
}

}  // namespace

std::string phrase(const Telling& telling, std::string_view name, const Speech::Words& blanks) {
  return fill(telling.speech.phrases.find(name)->second, blanks);
}

std::string spoken_part(const Telling& telling, const Json& event) {
  const auto label = text(event, "label");
  return with_blank(spoken_name(text(event, "feature"), telling.speech),
                    spoken_word(telling.speech, label.empty() ? text(event, "index") : label));
}

std::string spoken_spot(const Telling& telling, const Json& event) {
  return with_blank(spoken_word(telling.speech, text(event, "level")),
                    spoken_word(telling.speech, text(event, "axis")));
}

std::string spoken_place(const Telling& telling, const Json& event) {
  return with_blank(spoken_part(telling, event), spoken_spot(telling, event));
}

std::string spoken_subject(const Telling& telling, const std::string& subject) {
  std::istringstream words(subject);
  std::string all;
  for (std::string word; words >> word;) all = with_blank(all, spoken_word(telling.speech, word));
  return all;
}

std::string spoken_size(const Telling& telling, Length size) {
  return tenth::spoken_size(size, telling.unit, telling.speech.numbers);
}

std::string spoken_distance(const Telling& telling, Length distance) {
  return tenth::spoken_distance(distance, telling.unit, telling.speech.numbers);
}

bool happened(const Telling& telling, const Json& values) {
  return std::any_of(telling.moment.begin(), telling.moment.end(), [&](const Json& event) {
    return std::all_of(values.items().begin(), values.items().end(), [&](const auto& each) {
      const auto found = event.find(each.key());
      return found != event.end() && *found == each.value();
    });
  });
}

}  // namespace tenth::cli
