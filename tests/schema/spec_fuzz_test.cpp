#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "schema/spec/spec_file.hpp"
#include "tests/schema/spec_samples.hpp"

namespace tenth {
namespace {

/// Either a spec that holds together, or one clear line with line and column.
void expect_answer(const std::string& text) {
  const auto spec = parse_spec(text, "f");
  if (!spec) {
    RC_ASSERT(spec.error().code == "spec");
    RC_ASSERT(spec.error().message.starts_with("f:"));
    RC_ASSERT(!spec.error().remedy.empty());
    return;
  }
  for (const auto& feature : spec->features) {
    RC_ASSERT(feature.count() >= 1);
    if (feature.limits.lower && feature.limits.upper) RC_ASSERT(*feature.limits.lower <= *feature.limits.upper);
  }
  for (const auto& fit : spec->fits) RC_ASSERT(static_cast<int>(fit.couples.size()) == spec->find(fit.inside)->count());
}

/// One slip of a hand or an editor.
void mutate(std::string& text) {
  const auto at = *rc::gen::inRange<std::size_t>(0, text.size());
  const auto length = *rc::gen::inRange<std::size_t>(0, 20);
  switch (*rc::gen::inRange(0, 5)) {
    case 0:
      text[at] = *rc::gen::arbitrary<char>();
      break;
    case 1:
      text.erase(at, length);
      break;
    case 2:
      text.insert(at, text.substr(*rc::gen::inRange<std::size_t>(0, text.size()), length));
      break;
    case 3:
      text.insert(at, *rc::gen::elementOf(
                          std::vector<std::string>{"[", "]", "{}", "\"", "= ", "\n", "1", "-", "e9", "é", "[[", "0."}));
      break;
    default:
      text.resize(at + 1);
  }
}

RC_GTEST_PROP(SpecFuzz, MutatedSpecsAreAnswered, ()) {
  std::string text = *rc::gen::element(std::string(kWhole), std::string(kShared));
  for (int slips = *rc::gen::inRange(1, 6); slips > 0; --slips) mutate(text);
  expect_answer(text);
}

RC_GTEST_PROP(SpecFuzz, AnyBytesAreAnswered, (const std::string& text)) {
  expect_answer(text);
}

/// The value of a line is replaced: the shapes that TOML allows, where others are asked.
RC_GTEST_PROP(SpecFuzz, WrongShapesAreAnswered, ()) {
  std::string text = *rc::gen::element(std::string(kWhole), std::string(kShared));
  const auto lines = static_cast<std::size_t>(std::count(text.begin(), text.end(), '='));
  std::size_t equals = std::string::npos;
  for (auto line = *rc::gen::inRange<std::size_t>(0, lines) + 1; line > 0; --line) equals = text.find('=', equals + 1);
  const auto shape = *rc::gen::elementOf(
      std::vector<std::string>{"1", "-1", "0.5", "true", "\"\"", "\"x\"", "[]", "[[]]", "[1]", "[1, 2]", "[\"a\", 1]",
                               "{}", "{ a = 1 }", "1979-05-27", "inf", "nan", "0xFF", "1e300", "9223372036854775807"});
  text.replace(equals + 1, text.find('\n', equals) - equals - 1, " " + shape);
  expect_answer(text);
}

TEST(SpecFuzz, EveryBeginningOfASpecIsAnswered) {
  for (const std::string whole : {kWhole, kShared})
    for (std::size_t size = 0; size <= whole.size(); ++size) {
      const auto spec = parse_spec(whole.substr(0, size), "f");
      EXPECT_TRUE(spec || spec.error().message.starts_with("f:")) << size;
    }
}

TEST(SpecFuzz, DepthIsBounded) {
  const auto spec = parse_spec("x = " + std::string(100'000, '['), "f");
  ASSERT_FALSE(spec);
  EXPECT_TRUE(spec.error().message.starts_with("f:1:"));
}

/// A bare number means what is written, wherever it stands.
RC_GTEST_PROP(SpecFuzz, BareNumbersAreExact, ()) {
  const Length length = Length::from_pm(*rc::gen::inRange<std::int64_t>(0, kLongest.pm()));
  std::string number = exact_mm(length);
  const auto before = *rc::gen::elementOf(
      std::vector<std::string>{"", "\n", "# é\n", "\r\n", "title = 'µ \t é'\n", "[facts]\n'é' = '''\n\u00e9\n'''\n"});
  const auto after = *rc::gen::elementOf(std::vector<std::string>{"", " ", "#é", "\t# 1", ",'1 mm'"});
  const bool pair = after.starts_with(',');
  const std::string value = pair ? "[ " + number + ",'100 mm' ]" : number + after;
  const auto spec = parse_spec(
      "unit = 'mm'\n" + before + "[feature.x]\nkind='gap'\n " + (pair ? "window" : "max") + "=\t" + value + "\n", "f");
  if (pair && length > Length::from_mm(100)) return;
  const Feature feature = spec.value().features.at(0);
  RC_ASSERT((pair ? feature.window->lower : feature.limits.upper) == length);
}

}  // namespace
}  // namespace tenth
