#include <gtest/gtest.h>

#include <regex>

#include "rules/reading.hpp"
#include "schema/speech/speech_file.hpp"

namespace tenth {
namespace {

std::string shipped(std::string_view language) {
  for (const ShippedSpeech& each : shipped_speech())
    if (each.language == language) return std::string(each.text);
  return "";
}

/// The English file with one thing replaced, and what is said of that.
std::string refusal(const std::string& what, const std::string& by) {
  std::string text = shipped("en");
  const std::size_t at = text.find(what);
  EXPECT_NE(at, std::string::npos) << what;
  text.replace(at, what.size(), by);
  const auto read = parse_speech(text, "fr.toml");
  if (read) return "read";
  EXPECT_EQ(read.error().exit, Exit::refused);
  EXPECT_EQ(read.error().code, "speech");
  return std::regex_replace(read.error().message, std::regex("[0-9]+:[0-9]+"), "L:C") + "; " + read.error().remedy;
}

TEST(SpeechFile, EveryShippedLanguageIsWholeAndNamedAsItsFile) {
  ASSERT_EQ(shipped_speech().size(), 2U);
  for (const ShippedSpeech& each : shipped_speech()) {
    const auto speech = parse_speech(each.text, std::string(each.language));
    ASSERT_TRUE(speech) << speech.error().message << "; " << speech.error().remedy;
    EXPECT_EQ(speech->language, each.language);
    EXPECT_EQ(speech->phrases.size(), phrase_forms().size());
    EXPECT_EQ(speech->doubts.size(), static_cast<std::size_t>(Doubt::gauge) + 1);
  }
}

TEST(SpeechFile, AWordThatIsMissingOrUnknownIsNamed) {
  EXPECT_EQ(refusal("voided = \"Taken back\"\n", ""), "fr.toml:L:C: [say] needs voided; write what is said for it");
  EXPECT_EQ(refusal("turn = \"the", "turnn = \"the").substr(0, 60),
            "fr.toml:L:C: [doubts] has no key 'turnn'; did you mean turn?");
  EXPECT_EQ(refusal("point = \"point\"\n", ""), "fr.toml:L:C: [numbers] needs point; write what is said for it");
  EXPECT_EQ(refusal("oh = \"oh\"\n", ""), "fr.toml:L:C: [lengths] needs oh; write what is said for it");
  EXPECT_EQ(refusal("[say]\n", "[words]\n").substr(0, 50), "fr.toml:L:C: a file of speech has no key 'words'; ");
  EXPECT_EQ(refusal("tenths = \"tenths\"", "tenths = 3"), "fr.toml:L:C: [lengths] tenths is text; put it in quotes");
  EXPECT_EQ(refusal("parity = \"a byte was damaged\"", "parity = 3"),
            "fr.toml:L:C: [names] parity is text; put it in quotes");
}

TEST(SpeechFile, TheLineIsThatOfTheError) {
  std::string text = shipped("en");
  const std::size_t at = text.find("kept = ");
  const auto line = std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n') + 1;
  text.replace(at, 4, "kapt");
  const std::string begin = "x:" + std::to_string(line) + ":1: [say] has no key 'kapt'";
  EXPECT_EQ(parse_speech(text, "x").error().message, begin);
}

TEST(SpeechFile, ABraceOnlyHoldsWhatThePhraseCanSay) {
  EXPECT_EQ(refusal("next = \"Next {place}\"", "next = \"Next {size}\""),
            "fr.toml:L:C: [say] next cannot say {size}; it can say: place");
  EXPECT_EQ(refusal("{count} more", "{cou nt} more"),
            "fr.toml:L:C: [say] alerts cannot say {cou nt}; it can say: count");
  EXPECT_EQ(refusal("\"Taken back\"", "\"Taken {seq}\""),
            "fr.toml:L:C: [say] voided cannot say {seq}; it can have no braces");
  for (const char* brace : {"{place", "place}", "{{place}", "{place}}"})
    EXPECT_EQ(refusal("next = \"Next {place}\"", "next = \"" + std::string(brace) + "\""),
              "fr.toml:L:C: [say] next: a brace has no other; write {name}")
        << brace;
  EXPECT_EQ(refusal("next = \"Next {place}\"", "next = \"{place}, and {place}\""), "read");
}

TEST(SpeechFile, AllNumbersAreThere) {
  EXPECT_EQ(refusal("\"seven\", ", ""),
            "fr.toml:L:C: [numbers] small is no list of 100 words; write all 100, in their order");
  EXPECT_EQ(refusal("\"seven\", ", "7, "), "fr.toml:L:C: [numbers] small: this is no word; write a text in quotes");
  EXPECT_EQ(refusal("\"nine hundred\"", "\"\""),
            "fr.toml:L:C: [numbers] hundreds: this is no word; write a text in quotes");
}

TEST(SpeechFile, TheLanguageIsNoOptionOfAProgram) {
  for (const char* wrong : {"", "-x", "en us", "e;n"})
    EXPECT_NE(refusal("language = \"en\"", "language = \"" + std::string(wrong) + "\""), "read") << wrong;
  EXPECT_EQ(refusal("language = \"en\"", "language = \"en-us\""), "read");
}

TEST(SpeechFile, PhrasesAreFilledIn) {
  EXPECT_EQ(fill("{place}: {size}, {place}", {{"place", "bore {size}"}, {"size", "one"}}),
            "bore {size}: one, bore {size}");
  EXPECT_EQ(fill("nothing", {}), "nothing");
}

TEST(SpeechFile, NamesAreTranslatedOrReadAsTheyAre) {
  const Speech german = parse_speech(shipped("de"), "de").value();
  EXPECT_EQ(spoken_name("main_journal", german), "Hauptlagerzapfen");
  EXPECT_EQ(spoken_name("oil_pump_gap", german), "oil pump gap");
}

}  // namespace
}  // namespace tenth
