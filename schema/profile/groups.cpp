#include "schema/profile/parts.hpp"

namespace tenth::profile_file {

namespace {

constexpr int kMostWait_ms = 3'600'000;
constexpr int kMostFrame = 256;  // bytes

std::optional<std::int64_t> milliseconds(Keys& keys, std::string_view key, int least) {
  const auto found = keys.whole(key, least, kMostWait_ms);
  return found ? std::optional<std::int64_t>(*found) : std::nullopt;
}

/// A keyboard's gauge ends a number with a key.
void translate_keys(Keys& keys, std::vector<std::string>& ends) {
  for (std::string& end : ends)
    if (end == "enter")
      end = "\n";
    else if (end == "tab")
      end = "\t";
    else
      keys.wrong("end", "end: there is no key " + quoted(end) + " here", "write \"enter\" or \"tab\"");
}

}  // namespace

bool has_pattern(Speaks speaks) {
  return speaks == Speaks::line || speaks == Speaks::query || speaks == Speaks::keys;
}

const toml::table* group(Keys& file, std::string_view name, bool allowed, const std::string& only_with) {
  const toml::table* const found = file.table(name);
  if (found == nullptr || allowed) return found;
  file.wrong(name, "[" + std::string(name) + "] is only for " + only_with, "leave the group out");
  return nullptr;
}

std::vector<std::string> texts(Keys& keys, std::string_view key, bool may_be_empty) {
  std::vector<std::string> list;
  const toml::node& node = *keys.find(key);
  if (const auto* one = node.as_string()) list.push_back(one->get());
  if (const auto* several = node.as_array())
    for (const auto& element : *several) {
      if (const auto* text = element.as_string())
        list.push_back(text->get());
      else
        keys.text().wrong(element, keys.title() + " " + std::string(key) + ": this is no text", "put it in quotes");
    }
  if (list.empty()) keys.wrong(key, std::string(key) + " is no list of texts", "write [\"…\", \"…\"]");
  for (const std::string& text : list)
    if (text.empty() && !may_be_empty) keys.wrong(key, std::string(key) + ": a text is empty", "leave it out");
  return list;
}

LineSettings read_line(Keys& file) {
  LineSettings line;
  const toml::table* const table = file.table("line");
  if (table == nullptr) return line;
  Keys keys(file.text(), *table, "[line]", {"baud", "bits", "parity", "stop", "flow", "dtr", "rts"});
  line.baud = keys.whole("baud", 50, 4'000'000).value_or(line.baud);
  line.bits = keys.whole("bits", 7, 8).value_or(line.bits);
  line.parity =
      keys.choice("parity", line.parity, {{"none", Parity::none}, {"even", Parity::even}, {"odd", Parity::odd}});
  line.stop = keys.whole("stop", 1, 2).value_or(line.stop);
  line.flow = keys.choice("flow", line.flow, {{"none", Flow::none}, {"rts", Flow::rts}, {"xon", Flow::xon}});
  line.dtr = keys.yes("dtr", line.dtr);
  line.rts = keys.yes("rts", line.rts);
  if (line.flow == Flow::rts && keys.has("rts"))
    keys.wrong("rts", "with flow = \"rts\" the system moves RTS itself", "leave rts out");
  return line;
}

Framing read_framing(Keys& file, Speaks speaks) {
  Framing frame;
  if (speaks == Speaks::keys) frame.ends = {"\n"};
  if (!has_pattern(speaks)) {
    frame.ends = {"\r\n", "\r"};
    frame.most = kMostFrame;
  }
  const toml::table* const table = group(file, "frame", has_pattern(speaks), "line, query and keys");
  if (table == nullptr) return frame;
  Keys keys(file.text(), *table, "[frame]", {"end", "start", "most", "silence_ms"});
  if (keys.has("end")) {
    frame.ends = texts(keys, "end", false);
    if (speaks == Speaks::keys) translate_keys(keys, frame.ends);
  }
  frame.start = keys.words("start");
  if (const auto most = keys.whole("most", 1, kMostFrame)) frame.most = static_cast<std::size_t>(*most);
  frame.silence_ms = milliseconds(keys, "silence_ms", 0).value_or(0);
  return frame;
}

StatusForm read_status(Keys& file) {
  StatusForm status;
  const toml::table* const table = file.table("status");
  if (table == nullptr) return status;
  Keys keys(file.text(), *table, "[status]", {"good", "why"});
  if (keys.has("good")) status.good = texts(keys, "good", true);
  if (const toml::table* const why = keys.table("why"))
    for (const toml::key* key : in_order(*why)) {
      if (const auto* text = why->get(key->str())->as_string())
        status.why.emplace(key->str(), text->get());
      else
        file.text().wrong(key->source().begin, "[status] why: what it means is text", "put it in quotes");
    }
  return status;
}

Trigger read_trigger(Keys& file, Speaks speaks) {
  Trigger trigger;
  const bool polled = speaks == Speaks::query || speaks == Speaks::modbus;
  if (polled) trigger.by = SentBy::poll;
  const toml::table* const table = file.table("trigger");
  if (table == nullptr) return trigger;
  Keys keys(file.text(), *table, "[trigger]", {"by", "ask", "every_ms", "within_ms", "settle_ms"});
  trigger.by = keys.choice("by", trigger.by,
                           {{"button", SentBy::button}, {"continuous", SentBy::continuous}, {"poll", SentBy::poll}});
  trigger.ask = keys.words("ask");
  trigger.every_ms = milliseconds(keys, "every_ms", 1).value_or(trigger.every_ms);
  trigger.within_ms = milliseconds(keys, "within_ms", 1).value_or(trigger.within_ms);
  trigger.settle_ms = milliseconds(keys, "settle_ms", 0);
  if (keys.has("ask") && trigger.by != SentBy::poll)
    keys.wrong("ask", "a gauge that is not polled is never asked", "write by = \"poll\", or leave ask out");
  if (keys.has("ask") && (speaks == Speaks::modbus || speaks == Speaks::keys))
    keys.wrong("ask", "what to send is given by the format itself", "leave ask out");
  if (speaks == Speaks::modbus && trigger.by != SentBy::poll)
    keys.wrong("by", "a register is read only when asked for", "write by = \"poll\", or leave it out");
  return trigger;
}

ModbusForm read_modbus(Keys& file, Speaks speaks) {
  using Type = ModbusForm::Type;
  using Order = ModbusForm::Order;
  ModbusForm modbus;
  const toml::table* const table = group(file, "modbus", speaks == Speaks::modbus, "modbus");
  if (table == nullptr) return modbus;
  Keys keys(file.text(), *table, "[modbus]", {"unit_id", "table", "address", "type", "order", "decimals"});
  modbus.unit_id = keys.whole("unit_id", 0, 255).value_or(modbus.unit_id);
  modbus.holding = keys.choice("table", false, {{"input", false}, {"holding", true}});
  modbus.address = keys.whole("address", 0, 65535).value_or(modbus.address);
  modbus.type = keys.choice("type", modbus.type,
                            {{"int16", Type::int16},
                             {"uint16", Type::uint16},
                             {"int32", Type::int32},
                             {"uint32", Type::uint32},
                             {"float32", Type::float32}});
  modbus.order =
      keys.choice("order", modbus.order,
                  {{"ABCD", Order::ABCD}, {"CDAB", Order::CDAB}, {"BADC", Order::BADC}, {"DCBA", Order::DCBA}});
  modbus.decimals = keys.whole("decimals", 0, 9).value_or(modbus.decimals);
  return modbus;
}

std::map<std::string, std::string> read_key_map(Keys& file, Speaks speaks) {
  std::map<std::string, std::string> map;
  const toml::table* const table = group(file, "keys", speaks == Speaks::keys, "keys");
  if (table == nullptr) return map;
  for (const toml::key* key : in_order(*table)) {
    const auto* text = table->get(key->str())->as_string();
    if (!key->str().starts_with("KEY_"))
      file.text().wrong(key->source().begin, "[keys] " + quoted(key->str()) + " is no name of a key",
                        "write the kernel's name, such as KEY_COMMA");
    else if (text == nullptr || text->get().size() != 1)
      file.text().wrong(key->source().begin, "[keys] " + std::string(key->str()) + " stands for one character",
                        "write it in quotes, such as \".\"");
    else
      map.emplace(key->str(), text->get());
  }
  return map;
}

Limits read_range(Keys& file) {
  const toml::table* const table = file.table("limits");
  if (table == nullptr) return {};
  Keys keys(file.text(), *table, "[limits]", {"range"});
  return keys.pair("range");
}

}  // namespace tenth::profile_file
