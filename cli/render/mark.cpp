#include "cli/render/mark.hpp"

#include "cli/render/text.hpp"

namespace tenth::cli {

Mark verdict_mark(const std::string& verdict) {
  if (verdict == "in") return {"+", verdict, Tone::good};
  if (verdict == "doubtful") return {"?", verdict, Tone::look};
  if (verdict == "out") return {"!", verdict, Tone::bad};
  if (verdict == "incomplete") return {".", verdict, Tone::quiet};
  return {"-", "no limits", Tone::quiet};
}

Mark state_mark(const std::string& state) {
  if (state == "kept") return {"+", state, Tone::good};
  if (state == "suspect") return {"?", state, Tone::bad};
  if (state == "claimed") return {"\"", state, Tone::quiet};
  return {"x", state, Tone::quiet};
}

Mark alert_mark(const std::string& state, const std::string& severity) {
  if (state != "open") return {"-", state, Tone::quiet};
  return severity == "stop" ? Mark{"!", "stop", Tone::bad} : Mark{"?", "look", Tone::look};
}

std::string inked(const Ink& ink, const Mark& mark, std::size_t columns) {
  const std::string text = mark.sign + " " + mark.word;
  const auto used = width(text);
  return ink(mark.tone, text) + std::string(used < columns ? columns - used : 1, ' ');
}

}  // namespace tenth::cli
