#include "schema/speech/speech_file.hpp"

#include <algorithm>

#include "rules/reading.hpp"
#include "schema/toml/keys.hpp"

namespace tenth {
namespace {

using namespace toml_file;

const std::string kWrite = "write what is said for it";

/// It goes to programs that speak as one of their words.
bool is_code(std::string_view text) {
  return !text.empty() && text.front() != '-' && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-' || (c >= '0' && c <= '9');
  });
}

/// It may be empty, but it must be there.
std::string text_of(Keys& keys, std::string_view key) {
  return keys.required(key, kWrite);
}

template <std::size_t count>
void read_list(Keys& keys, std::string_view key, std::array<std::string, count>& into) {
  const toml::array* const list = keys.find(key) == nullptr ? nullptr : keys.find(key)->as_array();
  const std::string name(key), most = std::to_string(count);
  if (list == nullptr || list->size() != count)
    return keys.wrong(key, name + " is no list of " + most + " words", "write all " + most + ", in their order");
  for (std::size_t n = 0; n < count; ++n) {
    const auto* const word = list->get(n)->as_string();
    if (word == nullptr || word->get().empty())
      return keys.text().wrong(*list->get(n), keys.title() + " " + name + ": this is no word",
                               "write a text in quotes");
    into[n] = word->get();
  }
}

void read_numbers(TomlText& text, const toml::table& table, Speech& speech) {
  NumberWords& words = speech.numbers;
  Keys keys(text, table, "[numbers]", {"small", "hundreds", "join", "point", "minus"});
  read_list(keys, "small", words.small);
  read_list(keys, "hundreds", words.hundreds);
  words.join = text_of(keys, "join");
  words.point = text_of(keys, "point");
  words.minus = text_of(keys, "minus");
}

void read_lengths(TomlText& text, const toml::table& table, Speech& speech) {
  NumberWords& words = speech.numbers;
  Keys keys(text, table, "[lengths]",
            {"inches", "oh", "hundred", "even", "also", "thou", "tenth", "tenths", "micron", "microns", "mm", "in"});
  words.inch_by_thou = keys.choice("inches", false, {{"thou", true}, {"decimal", false}});
  if (words.inch_by_thou)
    for (const auto& [key, word] : {std::pair{"oh", &words.oh}, {"hundred", &words.hundred}, {"even", &words.even}})
      *word = text_of(keys, key);
  for (const auto& [key, word] : {std::pair{"also", &words.also},
                                  {"thou", &words.thou},
                                  {"tenth", &words.tenth},
                                  {"tenths", &words.tenths},
                                  {"micron", &words.micron},
                                  {"microns", &words.microns},
                                  {"mm", &words.mm},
                                  {"in", &words.in}})
    *word = text_of(keys, key);
}

/// The names in the braces of a phrase are those that it may have.
void check_blanks(TomlText& text, const toml::node& node, const PhraseForm& form, std::string_view phrase) {
  const std::string name(form.name), blanks(form.blanks);
  for (std::size_t open = phrase.find_first_of("{}"); open != std::string_view::npos;
       open = phrase.find_first_of("{}")) {
    const std::size_t close = phrase[open] == '{' ? phrase.find_first_of("{}", open + 1) : std::string_view::npos;
    if (close == std::string_view::npos || phrase[close] == '{')
      return text.wrong(node, "[say] " + name + ": a brace has no other", "write {name}");
    const std::string blank(phrase.substr(open + 1, close - open - 1));
    if (blank.empty() || (" " + blanks + " ").find(" " + blank + " ") == std::string::npos)
      return text.wrong(node, "[say] " + name + " cannot say {" + blank + "}",
                        blanks.empty() ? "it can have no braces" : "it can say: " + blanks);
    phrase.remove_prefix(close + 1);
  }
}

/// The texts of a table. With `wanted` it has all of these keys and no others.
Speech::Words read_texts(TomlText& text, const toml::table& table, const std::string& title, const Names& wanted = {}) {
  Speech::Words words;
  for (const toml::key* const key : in_order(table)) {
    const std::string name(key->str());
    const auto* const said = table.get(name)->as_string();
    if (!wanted.empty() && std::find(wanted.begin(), wanted.end(), name) == wanted.end())
      text.wrong(key->source().begin, title + " has no key " + quoted(name), choices(name, wanted));
    else if (said == nullptr)
      text.wrong(*table.get(name), title + " " + name + " is text", "put it in quotes");
    else
      words[name] = said->get();
  }
  for (const std::string& name : wanted)
    if (!table.contains(name)) text.wrong(table, title + " needs " + name, kWrite);
  return words;
}

void read_doubts(TomlText& text, const toml::table& table, Speech& speech) {
  Names wanted;
  for (int n = 0; n <= static_cast<int>(Doubt::gauge); ++n) wanted.emplace_back(name(static_cast<Doubt>(n)));
  speech.doubts = read_texts(text, table, "[doubts]", wanted);
}

void read_phrases(TomlText& text, const toml::table& table, Speech& speech) {
  Names wanted;
  for (const PhraseForm& form : phrase_forms()) wanted.emplace_back(form.name);
  speech.phrases = read_texts(text, table, "[say]", wanted);
  for (const PhraseForm& form : phrase_forms())
    if (const auto said = speech.phrases.find(form.name); said != speech.phrases.end())
      check_blanks(text, *table.get(form.name), form, said->second);
}

void read_names(TomlText& text, const toml::table& table, Speech& speech) {
  speech.names = read_texts(text, table, "[names]");
}

using Read = void (*)(TomlText& text, const toml::table& table, Speech& speech);

constexpr std::pair<std::string_view, Read> kTables[] = {{"numbers", read_numbers},
                                                         {"lengths", read_lengths},
                                                         {"names", read_names},
                                                         {"doubts", read_doubts},
                                                         {"say", read_phrases}};

Speech read_speech(TomlText& text, const toml::table& table) {
  Speech speech;
  Keys keys(text, table, "a file of speech", {"language", "numbers", "lengths", "names", "doubts", "say"});
  speech.language = keys.required("language", "write the code of the language, such as \"en\"");
  if (!is_code(speech.language))
    keys.wrong("language", "language is no code", "write letters and hyphens, such as \"en-us\"");
  for (const auto& [name, read] : kTables) {
    if (!keys.has(name))
      keys.wrong(name, "needs [" + std::string(name) + "]", "see what `tenth speak --template en` prints");
    else if (const toml::table* const found = keys.table(name))
      read(text, *found, speech);
  }
  return speech;
}

}  // namespace

Result<Speech> parse_speech(std::string_view text, const std::string& file) {
  return read_toml(text, file, "speech", read_speech);
}

}  // namespace tenth
