#include <array>

#include "simulators/read_gauge.hpp"

namespace tenth::simulators {

namespace {

void read_end(Fields& fields, Display& shown) {
  constexpr std::array kEnds = {"\r", "\n", "\r\n"};
  shown.end = kEnds.at(fields.choice("end", {"cr", "lf", "crlf"}));
}

void read_line(Fields& fields, Display& shown) {
  constexpr std::array kSeparators = {" ", ":", ""};
  const auto word = [&](std::string_view key) { return fields.text(key).value_or(Text{}).value; };
  shown.plus = fields.choice("sign", {"minus", "always"}) == 1;
  shown.point = ".,"[fields.choice("point", {".", ","})];
  shown.width = fields.whole("width", 0, 0, 40);
  shown.lead = " 0"[fields.choice("lead", {" ", "0"})];
  shown.exponent = fields.flag("exponent");
  shown.names_unit = fields.flag("names_unit");
  shown.channel = word("channel");
  shown.separator = kSeparators.at(fields.choice("separator", {" ", ":", ""}));
  shown.suffix = word("suffix");
  shown.status = word("status");
}

void read_delay(Fields& fields, Gauge& gauge) {
  gauge.delay = std::chrono::milliseconds(fields.whole("delay_ms", 0, 0, 3'600'000));
}

void read_query(Fields& fields, Gauge& gauge) {
  gauge.ask = fields.required_text("ask", "R\\r").value;
  gauge.display.number = static_cast<Number>(fields.choice("number", {"nr2", "nr1", "nr3"}));
  gauge.display.plus = fields.choice("sign", {"minus", "always"}) == 1;
  read_delay(fields, gauge);
}

void read_modbus(Fields& fields, Gauge& gauge) {
  auto& map = gauge.map;
  map.unit_id = fields.whole("unit_id", 1, 0, 255);
  map.table = static_cast<Table>(fields.choice("table", {"input", "holding"}));
  map.address = fields.whole("address", 0, 0, 65'535);
  map.type = static_cast<RegisterType>(fields.choice("type", {"float32", "int16", "uint16", "int32", "uint32"}));
  map.order = static_cast<ByteOrder>(fields.choice("order", {"ABCD", "CDAB", "BADC", "DCBA"}));
  read_delay(fields, gauge);
}

void read_stream(Fields& fields, Gauge& gauge) {
  gauge.stream_hz = fields.whole("stream_hz", 10, 1, 1000);
  gauge.streams = fields.flag("streams");
}

}  // namespace

void read_format(Fields& fields, Gauge& gauge) {
  auto& shown = gauge.display;
  const auto speaks = fields.required_text("speaks", "bcd13");
  if (speaks.value.empty()) return;
  shown.speaks = static_cast<Speaks>(fields.choice("speaks", {"line", "bcd13", "bin24", "query", "modbus"}));
  shown.unit = static_cast<Unit>(fields.choice("unit", {"mm", "in"}));
  if (shown.speaks != Speaks::bin24) {
    shown.decimals = fields.whole("decimals", shown.unit == Unit::mm ? 3 : 4, 0, shown.speaks == Speaks::bcd13 ? 5 : 6);
  }
  if (shown.speaks == Speaks::modbus) return read_modbus(fields, gauge);
  read_end(fields, shown);
  if (shown.speaks == Speaks::query) return read_query(fields, gauge);
  if (shown.speaks == Speaks::line) read_line(fields, shown);
  read_stream(fields, gauge);
}

}  // namespace tenth::simulators
