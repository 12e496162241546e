#include "simulators/act.hpp"

#include <algorithm>
#include <span>
#include <vector>

#include "simulators/verbs.hpp"

namespace tenth::simulators {

namespace {

/// The bytes are everything after the blank behind the gauge, so blanks can be sent too.
Result<Act> raw(std::string_view line, const std::vector<std::string_view>& words) {
  if (words.size() < 3) return tl::unexpected(not_understood(line, R"(raw GAUGE BYTES, such as raw bore 83.012\r)"));
  const auto begin = words[1].data() + words[1].size() + 1;
  auto bytes = unescape(std::string_view(begin, static_cast<std::size_t>(line.data() + line.size() - begin)));
  if (!bytes) return tl::unexpected(bytes.error());
  return Raw{std::string(words[1]), std::move(*bytes)};
}

tl::unexpected<std::string> unknown(std::string_view verb) {
  std::string known;
  for (const auto& other : verbs()) known += std::string(other.name) + ", ";
  return tl::unexpected(not_understood(verb, known + "or raw first"));
}

}  // namespace

Result<Act> parse_act(std::string_view line) {
  const auto words = split(line);
  if (words.empty()) return unknown("");
  if (words[0] == "raw") return raw(line, words);
  const auto verb = std::ranges::find(verbs(), words[0], &Verb::name);
  if (verb == verbs().end()) return unknown(words[0]);
  Words rest(std::span<const std::string_view>(words).subspan(1), std::string(verb->form));
  const Act act = verb->read(rest);
  if (const auto finished = rest.finish(); !finished) return tl::unexpected(finished.error());
  return act;
}

std::string gauge_of(const Act& act) {
  return std::visit(
      [](const auto& kind) -> std::string {
        if constexpr (requires { kind.gauge; }) return kind.gauge;
        return {};
      },
      act);
}

}  // namespace tenth::simulators
