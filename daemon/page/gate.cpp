#include "daemon/page/gate.hpp"

#include <algorithm>
#include <boost/asio/ip/address.hpp>
#include <boost/beast/core/string.hpp>
#include <boost/beast/http/field.hpp>
#include <boost/beast/http/verb.hpp>

namespace tenth {
namespace {

namespace beast = boost::beast;
namespace http = beast::http;

/// "name" of "name:80", "[::1]" of "[::1]:80"; empty where it is neither.
std::string_view without_port(std::string_view host) {
  const std::size_t from = host.starts_with('[') ? host.find(']') : 0;
  if (from == std::string_view::npos) return {};
  const std::size_t colon = host.find(':', from);
  if (colon == std::string_view::npos) return host;
  const std::string_view port = host.substr(colon + 1);
  const bool digits = std::ranges::all_of(port, [](char c) { return c >= '0' && c <= '9'; });
  return digits && !port.empty() && port.size() <= 5 ? host.substr(0, colon) : std::string_view();
}

bool is_loopback(std::string_view name) {
  const bool bracketed = name.starts_with('[') && name.ends_with(']');
  if (bracketed) name = name.substr(1, name.size() - 2);
  boost::system::error_code error;
  const auto address = boost::asio::ip::make_address(std::string(name), error);
  return !error && address.is_loopback() && address.is_v6() == bracketed;
}

/// Of the same host and port; a proxy before us may speak https.
bool is_same(std::string_view origin, std::string_view host) {
  for (const std::string_view scheme : {"http://", "https://"})
    if (origin.starts_with(scheme) && beast::iequals(origin.substr(scheme.size()), host)) return true;
  return false;
}

}  // namespace

bool Gate::is_ours(std::string_view host) const {
  const std::string_view name = without_port(host);
  if (name.empty()) return false;
  const auto same = [name](std::string_view known) { return beast::iequals(name, known); };
  return same("localhost") || is_loopback(name) || std::ranges::any_of(hosts_, same);
}

bool Gate::has_token(const PageRequest& request) const {
  constexpr std::string_view kBearer = "Bearer ";
  const std::string_view given = request[http::field::authorization];
  return beast::iequals(given.substr(0, kBearer.size()), kBearer) && token_.matches(given.substr(kBearer.size()));
}

std::optional<SentAway> Gate::send_away(const PageRequest& request) const {
  if (request.count(http::field::host) != 1 || request.count(http::field::origin) > 1)
    return SentAway{http::status::bad_request, "one Host has to be named, and at most one Origin"};
  const std::string_view host = request[http::field::host], origin = request[http::field::origin];
  if (!is_ours(host)) return SentAway{http::status::forbidden, "this name is not served here: see [page] hosts"};
  if (request.count(http::field::origin) > 0 && !is_same(origin, host))
    return SentAway{http::status::forbidden, "pages of other origins are not answered"};
  const bool reads = request.method() == http::verb::get || request.method() == http::verb::head;
  if (!reads && !has_token(request))
    return SentAway{http::status::unauthorized, "acting needs the token: `tenth page` shows it"};
  return std::nullopt;
}

}  // namespace tenth
