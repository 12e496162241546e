#include "simulators/read_gauge.hpp"

#include "simulators/scenario.hpp"

namespace tenth::simulators {

namespace {

void read_name(Fields& fields, Gauge& gauge, const std::vector<Gauge>& others) {
  const auto name = fields.required_text("name", "bore-gauge");
  gauge.name = name.value;
  if (gauge.name.find_first_of(" \t") != std::string::npos) {
    fields.fail(name.where, "'" + gauge.name + "' holds a blank: name a gauge with one word");
  }
  if (find_gauge(others, gauge.name))
    fields.fail(name.where, "'" + gauge.name + "' stands twice: name each gauge once");
}

/// A box with several channels: each is a gauge, and the first of them has the port.
void read_shared(Fields& fields, const Text& port_of, Gauge& gauge, const std::vector<Gauge>& others) {
  gauge.port_of = port_of.value;
  const auto* owner = find_gauge(others, port_of.value);
  if (!owner || !owner->port_of.empty()) {
    return fields.fail(port_of.where,
                       "'" + port_of.value + "' stands not above with a port of its own: name one that does");
  }
  gauge.tcp = owner->tcp;
  if (owner->display.speaks != gauge.display.speaks) {
    fields.fail(port_of.where, "'" + port_of.value + "' speaks otherwise: all on one port speak one format");
  }
  for (const auto& other : others) {
    if (other.name != owner->name && other.port_of != owner->name) continue;
    if (answer_alike(gauge, other)) {
      fields.fail(port_of.where, "'" + other.name + "' answers the same there: each has its ask, or its registers");
    }
  }
  if (fields.text("path") || fields.text("tcp")) {
    fields.fail(port_of.where, "a shared port is opened once: leave path and tcp out");
  }
}

void read_tcp(Fields& fields, const Text& tcp, Gauge& gauge, const std::vector<Gauge>& others) {
  const auto address = parse_address(tcp.value);
  if (!address) return fields.fail(tcp.where, address.error());
  gauge.tcp = *address;
  for (const auto& other : others) {
    const bool same =
        other.tcp && address->port != 0 && other.tcp->host == address->host && other.tcp->port == address->port;
    if (same) fields.fail(tcp.where, "'" + tcp.value + "' stands twice: each gauge has its port");
  }
}

void read_port(Fields& fields, Gauge& gauge, const std::vector<Gauge>& others) {
  if (const auto port_of = fields.text("port_of")) return read_shared(fields, *port_of, gauge, others);
  const auto tcp = fields.text("tcp");
  if (tcp) read_tcp(fields, *tcp, gauge, others);
  const bool known = gauge.tcp && gauge.tcp->port != 0;
  const auto path = known ? fields.text("path").value_or(Text{}) : fields.required_text("path", "ports/bore-gauge");
  gauge.path = path.value;
  for (const auto& other : others) {
    if (gauge.path.empty() || other.path != gauge.path) continue;
    fields.fail(path.where, "'" + gauge.path + "' stands twice: each gauge has its path");
  }
}

Result<void> can_show(const Gauge& gauge, Amount value) {
  const Amount shown = value - gauge.zero.value_or(Amount{}) + gauge.offset;
  const auto& display = gauge.display;
  if (display.speaks == Speaks::modbus) {
    const auto held = registers(gauge.map, count_shown(display, shown, display.unit), display.decimals);
    return held ? Result<void>{} : tl::unexpected(held.error());
  }
  const auto sent = frame(display, shown, display.unit);
  return sent ? Result<void>{} : tl::unexpected(sent.error());
}

/// Every value must fit the display, so that a long play does not break off halfway.
void read_values(Fields& fields, Gauge& gauge) {
  gauge.zero = fields.amount("zero");
  gauge.offset = fields.amount("offset").value_or(Amount{});
  const auto checked = [&](const Text& text) {
    const auto value = parse_amount(text.value);
    const auto shown = value ? can_show(gauge, *value) : Result<void>{tl::unexpected(value.error())};
    if (!shown) fields.fail(text.where, shown.error());
    return value.value_or(Amount{});
  };
  const auto held = fields.text("held");
  gauge.held = held ? checked(*held) : gauge.zero.value_or(Amount{});
  if (gauge.display.speaks == Speaks::modbus) return;
  for (const auto& text : fields.texts("values")) gauge.values.push_back(checked(text));
}

}  // namespace

Result<Gauge> read_gauge(const std::string& file, const toml::table& table, const std::vector<Gauge>& others) {
  Fields fields(file, table);
  Gauge gauge;
  read_name(fields, gauge, others);
  read_format(fields, gauge);
  read_port(fields, gauge, others);
  read_values(fields, gauge);
  const auto finished = fields.finish();
  if (!finished) return tl::unexpected(finished.error());
  return gauge;
}

}  // namespace tenth::simulators
