#include "daemon/page/address.hpp"

#include <charconv>

namespace tenth {
namespace {

namespace ip = boost::asio::ip;

bool is_port(const std::string& text, std::uint16_t& port) {
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), port);
  return !text.empty() && error == std::errc() && end == text.data() + text.size();
}

}  // namespace

Result<ip::tcp::endpoint> page_endpoint(const std::string& text) {
  const std::size_t colon = text.rfind(':');
  std::string host = text.substr(0, colon);
  if (host.starts_with('[') && host.ends_with(']'))
    host = host.substr(1, host.size() - 2);
  else if (host.find(':') != std::string::npos)
    host.clear();  // the colons of an address of IPv6 and that of the port look alike
  if (host == "localhost") host = "127.0.0.1";
  boost::system::error_code error;
  const ip::address address = ip::make_address(host, error);
  std::uint16_t port = 0;
  if (error || colon == std::string::npos || !is_port(text.substr(colon + 1), port))
    return wrong_words("http", "`" + text + "` is no address to serve the page on",
                       "give it like 127.0.0.1:8642 or [::1]:8642, or say off");
  return ip::tcp::endpoint(address, port);
}

std::string authority(const ip::tcp::endpoint& endpoint) {
  const std::string host = endpoint.address().to_string();
  return (endpoint.address().is_v6() ? "[" + host + "]" : host) + ":" + std::to_string(endpoint.port());
}

}  // namespace tenth
