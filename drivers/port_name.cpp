#include "drivers/port_name.hpp"

#include <algorithm>
#include <charconv>

namespace tenth::drivers {

namespace {

tl::unexpected<Refusal> no_port(std::string_view text, std::string remedy) {
  return wrong_words("port", "`" + std::string(text) + "` is no port", std::move(remedy));
}

bool is_service(std::string_view text) {
  int number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  return error == std::errc() && end == text.data() + text.size() && number >= 1 && number <= 65535;
}

Result<PortName> parse_tcp(std::string_view text) {
  const std::string_view rest = text.substr(4);
  const auto colon = std::min(rest.rfind(':'), rest.size());
  std::string_view host = rest.substr(0, colon);
  if (host.starts_with('[') && host.ends_with(']')) host = host.substr(1, host.size() - 2);
  if (host.empty() || colon == rest.size() || !is_service(rest.substr(colon + 1)))
    return no_port(text, "write tcp:HOST:PORT, such as tcp:192.168.0.7:4001");
  return PortName{PortName::Kind::tcp, std::string(host), std::string(rest.substr(colon + 1))};
}

}  // namespace

Result<PortName> parse_port(std::string_view text) {
  using Kind = PortName::Kind;
  if (text == "hand") return PortName{Kind::hand, {}, {}};
  if (text.starts_with('/')) return PortName{Kind::device, std::string(text), {}};
  if (text.starts_with("tcp:")) return parse_tcp(text);
  if (text.starts_with("usb:@") && text.size() > 5) return PortName{Kind::usb_socket, std::string(text.substr(5)), {}};
  if (text.starts_with("usb:") && text.size() > 4 && text[4] != '@')
    return PortName{Kind::usb_serial, std::string(text.substr(4)), {}};
  if (text.starts_with("keys:") && text.size() > 5) return PortName{Kind::keys, std::string(text.substr(5)), {}};
  return no_port(text,
                 "give the path of a device, usb:SERIAL, usb:@SOCKET, tcp:HOST:PORT, keys:NAME, or hand; `tenth gauge "
                 "find` lists what is there");
}

}  // namespace tenth::drivers
