#include "simulators/act.hpp"

#include <charconv>
#include <span>
#include <vector>

namespace tenth::simulators {

namespace {

using Words = std::span<const std::string_view>;

std::vector<std::string_view> split(std::string_view text) {
  std::vector<std::string_view> words;
  while (true) {
    const auto begin = text.find_first_not_of(" \t");
    if (begin == std::string_view::npos) return words;
    text.remove_prefix(begin);
    const auto word = text.substr(0, text.find_first_of(" \t"));
    words.push_back(word);
    text.remove_prefix(word.size());
  }
}

tl::unexpected<std::string> wrong(std::string_view what, std::string_view right) {
  return tl::unexpected("'" + std::string(what) + "' is not understood: write " + std::string(right));
}

std::optional<Slip> slip_named(std::string_view word) {
  if (word == "half") return Slip::half;
  if (word == "doubled") return Slip::doubled;
  if (word == "noisy") return Slip::noisy;
  return std::nullopt;
}

constexpr auto kPress = "press GAUGE [VALUE] [in mm|in] [half|doubled|noisy]";

Result<Act> press(Words words) {
  if (words.empty()) return wrong("press", kPress);
  Press act{.gauge = std::string(words[0]), .value = {}, .unit = {}, .slip = Slip::none};
  words = words.subspan(1);
  if (!words.empty() && words[0] != "in" && !slip_named(words[0])) {
    const auto value = parse_amount(words[0]);
    if (!value) return tl::unexpected(value.error());
    act.value = *value;
    words = words.subspan(1);
  }
  if (words.size() >= 2 && words[0] == "in") {
    const auto unit = parse_unit(words[1]);
    if (!unit) return tl::unexpected(unit.error());
    act.unit = *unit;
    words = words.subspan(2);
  }
  if (words.size() == 1 && slip_named(words[0])) {
    act.slip = *slip_named(words[0]);
    words = words.subspan(1);
  }
  if (!words.empty()) return wrong(words[0], kPress);
  return act;
}

int hex_digit(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

/// Escaped text as bytes: \xHH \r \n \t \\ and everything else as it is.
Result<std::string> unescape(std::string_view text) {
  constexpr auto kRight = "\\xHH, \\r, \\n, \\t or \\\\";
  std::string bytes;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\') {
      bytes += text[i];
      continue;
    }
    const char kind = ++i < text.size() ? text[i] : ' ';
    if (kind == 'x' && i + 2 < text.size() && hex_digit(text[i + 1]) >= 0 && hex_digit(text[i + 2]) >= 0) {
      bytes += static_cast<char>(hex_digit(text[i + 1]) * 16 + hex_digit(text[i + 2]));
      i += 2;
    } else if (const auto at = std::string_view("rnt\\").find(kind); at != std::string_view::npos) {
      bytes += "\r\n\t\\"[at];
    } else {
      return wrong(text.substr(i - 1), kRight);
    }
  }
  return bytes;
}

/// The bytes are everything after the blank behind the gauge, so blanks can be sent too.
Result<Act> raw(Words words, std::string_view line) {
  if (words.size() < 2) return wrong("raw", R"(raw GAUGE BYTES, such as raw bore 83.012\r)");
  const auto begin = words[0].data() + words[0].size() + 1;
  auto bytes = unescape(std::string_view(begin, static_cast<std::size_t>(line.data() + line.size() - begin)));
  if (!bytes) return tl::unexpected(bytes.error());
  return Raw{std::string(words[0]), std::move(*bytes)};
}

Result<Act> drift(Words words) {
  if (words.size() != 2) return wrong("drift", "drift GAUGE AMOUNT");
  const auto by = parse_amount(words[1]);
  if (!by) return tl::unexpected(by.error());
  return Drift{std::string(words[0]), *by};
}

Result<Act> wait(Words words) {
  constexpr auto kRight = "wait MILLISECONDS or wait told";
  if (words.size() != 1) return wrong("wait", kRight);
  if (words[0] == "told") return Wait{};
  int ms = 0;
  const auto end = words[0].data() + words[0].size();
  const auto read = std::from_chars(words[0].data(), end, ms);
  constexpr int kHour = 3'600'000;
  if (read.ec != std::errc() || read.ptr != end || ms < 0 || ms > kHour) return wrong(words[0], kRight);
  return Wait{std::chrono::milliseconds(ms)};
}

}  // namespace

Result<Act> parse_act(std::string_view line) {
  const auto words = split(line);
  const auto verb = words.empty() ? std::string_view{} : words[0];
  const auto rest = Words(words).subspan(words.empty() ? 0 : 1);
  if (verb == "press") return press(rest);
  if (verb == "raw") return raw(rest, line);
  if (verb == "drift") return drift(rest);
  if (verb == "wait") return wait(rest);
  if (verb != "hangup" && verb != "return") return wrong(verb, "press, raw, drift, hangup, return or wait first");
  if (rest.size() != 1) return wrong(verb, std::string(verb) + " GAUGE");
  if (verb == "hangup") return HangUp{std::string(rest[0])};
  return Return{std::string(rest[0])};
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
