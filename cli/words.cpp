#include "cli/words.hpp"

#include <charconv>
#include <utility>

#include "rules/joined.hpp"
#include "rules/nearest.hpp"
#include "schema/json/local_day.hpp"
#include "schema/json/time.hpp"

namespace tenth::cli {
namespace {

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(' ');
  return first == std::string::npos ? "" : text.substr(first, text.find_last_not_of(' ') - first + 1);
}

std::optional<std::int64_t> whole_number(std::string_view text, std::int64_t least) {
  std::int64_t number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || end != text.data() + text.size() || number < least) return std::nullopt;
  return number;
}

std::optional<std::int64_t> seq_from(std::string_view text) {
  return whole_number(text, 1);
}

}  // namespace

CLI::Validator one_of(std::vector<std::string> words) {
  const auto check = [words = std::move(words)](const std::string& word) -> std::string {
    for (const auto& right : words)
      if (word == right) return "";
    const auto near = nearest(word, words);
    const std::string what = quoted(word) + " is none of " + joined(words);
    return near.empty() ? what : what + "; did you mean " + near + "?";
  };
  return {check, "", "one_of"};
}

CLI::Validator not_blank() {
  const auto check = [](const std::string& text) -> std::string {
    return trimmed(text).empty() ? "something must stand there" : "";
  };
  return {check, "", "not_blank"};
}

CLI::Validator whole_from(std::int64_t least) {
  const auto check = [least](const std::string& text) -> std::string {
    return whole_number(text, least) ? "" : quoted(text) + " is no whole number from " + std::to_string(least) + " on";
  };
  return {check, "", "whole_from"};
}

Result<Run> parse_run(const std::string& text) {
  const auto dots = text.find("..");
  const auto first = seq_from(std::string_view(text).substr(0, dots));
  Run run{first.value_or(0), std::nullopt};
  if (dots != std::string::npos) run.last = seq_from(std::string_view(text).substr(dots + 2));
  if (first && (dots == std::string::npos || run.last.value_or(0) >= *first)) return run;
  return wrong_words("seq", quoted(text) + " is no reading's number and no run of them",
                     "write a number such as 12, or a run such as 12..15");
}

Result<std::string> length_text(const std::vector<std::string>& words, std::optional<Unit> bare) {
  std::string text;
  for (const auto& word : words) text += (text.empty() ? "" : " ") + word;
  text = trimmed(text);
  // Whatever is too fine or too long in millimetres is so in inches too, so a length in neither is refused.
  if (const auto length = parse_length(text, bare.value_or(Unit::mm)); !length) return tl::unexpected(length.error());
  return text;
}

Result<std::string> time_text(const std::string& text) {
  if (const auto us = wall_us_from(text)) return rfc3339(*us);
  if (const auto us = day_begins_us(text)) return rfc3339(*us);
  return wrong_words("time", quoted(text) + " is no time", "write 2026-03-01T08:15:00Z, or a day such as 2026-03-01");
}

Json given(const std::string& text) {
  return text_or_null(text);
}

}  // namespace tenth::cli
