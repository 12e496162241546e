#include "daemon/alerting/http_target.hpp"

#include <algorithm>
#include <charconv>

namespace tenth {
namespace {

constexpr std::string_view kScheme = "http://";
constexpr std::string_view kForm = "write http://host:port/path";

tl::unexpected<Refusal> bad(const std::string& what, std::string_view remedy = kForm) {
  return wrong_words("url", what, std::string(remedy));
}

bool is_port(std::string_view text) {
  unsigned number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  return error == std::errc() && end == text.data() + text.size() && number >= 1 && number <= 65535;
}

/// Letters, digits and the signs of names and addresses: nothing that could end a line of the request.
bool is_host(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '.' || c == '-' ||
           c == '_' || c == ':';
  });
}

bool is_path(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c > 0x20 && c < 0x7F && c != '#'; });
}

}  // namespace

std::string HttpTarget::authority() const {
  const std::string name = host.find(':') == std::string::npos ? host : "[" + host + "]";
  return port == "80" ? name : name + ":" + port;
}

Result<HttpTarget> parse_http_target(std::string_view url) {
  if (url.starts_with("https://"))
    return bad("https is not spoken here", "give a plain http URL of a relay on this machine, which speaks https");
  if (!url.starts_with(kScheme)) return bad("this is no http URL");
  const std::string_view rest = url.substr(kScheme.size());
  const std::size_t slash = std::min(rest.find_first_of("/?"), rest.size());
  std::string_view authority = rest.substr(0, slash);
  HttpTarget target;
  if (slash < rest.size()) target.path = (rest[slash] == '?' ? "/" : "") + std::string(rest.substr(slash));
  if (!is_path(target.path)) return bad("the path holds what no path holds");
  const std::size_t bracket = authority.starts_with('[') ? authority.find(']') : 0;
  if (bracket == std::string_view::npos) return bad("the address lacks its bracket");
  const std::size_t colon = authority.find(':', bracket);
  if (colon != std::string_view::npos) {
    target.port = authority.substr(colon + 1);
    authority = authority.substr(0, colon);
    if (!is_port(target.port)) return bad("the port is no number from 1 to 65535");
  }
  target.host = bracket == 0 ? authority : authority.substr(1, bracket - 1);
  if (!is_host(target.host) || (bracket != 0 && authority.size() != bracket + 1)) return bad("the host is none");
  return target;
}

}  // namespace tenth
