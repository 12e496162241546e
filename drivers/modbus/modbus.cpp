#include "drivers/modbus/modbus.hpp"

#include <utility>

#include "drivers/modbus/crc16.hpp"
#include "drivers/modbus/register_value.hpp"
#include "drivers/number.hpp"

namespace tenth::drivers {

namespace {

constexpr unsigned kReadHolding = 3, kReadInput = 4, kException = 0x80;
constexpr std::size_t kHeader = 6;           // of a message on a network, up to its length
constexpr unsigned kLongest = 254;           // unit and message, as the header may say
constexpr std::size_t kAddressAndCheck = 3;  // a serial message's unit and checksum

unsigned byte_at(std::string_view bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}

unsigned word_at(std::string_view bytes, std::size_t at) {
  return byte_at(bytes, at) << 8U | byte_at(bytes, at + 1);
}

std::string word(unsigned value) {
  return {static_cast<char>(value >> 8U & 0xFFU), static_cast<char>(value & 0xFFU)};
}

std::string checksum(std::string_view message) {
  const unsigned crc = crc16(message);
  return {static_cast<char>(crc & 0xFFU), static_cast<char>(crc >> 8U)};
}

std::string exception_words(unsigned code) {
  switch (code) {
    case 1:
      return "the gauge does not know this function (exception 1)";
    case 2:
      return "the gauge has no register at this address (exception 2)";
    case 3:
      return "the gauge does not take this count of registers (exception 3)";
    default:
      return "the gauge answers with exception " + std::to_string(code);
  }
}

class ModbusDecoder final : public Decoder {
 public:
  ModbusDecoder(const Profile& profile, Unit unit, Wire wire)
      : profile_(profile), unit_(unit), network_(wire == Wire::network) {}

  std::string ask() override;
  std::vector<Event> feed(std::span<const Received> bytes) override;
  std::vector<Event> silence() override { return break_off("the answer broke off"); }
  std::vector<Event> finish() override { return break_off("the port closed before the answer ended"); }

 private:
  std::size_t length() const;
  Event take_message();
  Parsed parse(std::string_view message) const;
  tl::expected<std::string_view, Wrong> unwrapped(std::string_view message) const;
  std::vector<Event> break_off(const std::string& how);
  std::vector<Event> take_rest();
  Fault drop(FaultReason why, std::string text);
  unsigned function() const { return profile_.modbus.holding ? kReadHolding : kReadInput; }

  Profile profile_;
  Unit unit_;
  bool network_;
  unsigned transaction_ = 0;
  std::string message_;
  bool damaged_ = false;
  std::vector<Event> rest_;  ///< of answers to the questions before
};

/// What an answer with a byte too many left over must not become the beginning of the next.
std::string ModbusDecoder::ask() {
  if (!message_.empty()) {
    rest_.emplace_back(drop(damaged_ ? FaultReason::parity : FaultReason::noise, "bytes behind the answer"));
    std::get<Fault>(rest_.back()).stale = true;
  }
  const ModbusForm& form = profile_.modbus;
  const std::string question = static_cast<char>(form.unit_id) + std::string(1, static_cast<char>(function())) +
                               word(static_cast<unsigned>(form.address)) + word(static_cast<unsigned>(registers(form)));
  if (!network_) return question + checksum(question);
  transaction_ = (transaction_ + 1) & 0xFFFFU;
  return word(transaction_) + word(0) + word(static_cast<unsigned>(question.size())) + question;
}

std::vector<Event> ModbusDecoder::feed(std::span<const Received> bytes) {
  std::vector<Event> events = take_rest();
  for (const Received received : bytes) {
    message_.push_back(static_cast<char>(received.byte));
    damaged_ = damaged_ || received.damaged;
    if (message_.size() == length()) events.push_back(take_message());
  }
  return events;
}

/// How long the message is that has begun; more than there is while that is not known.
std::size_t ModbusDecoder::length() const {
  if (network_) {
    if (message_.size() < kHeader) return kHeader + 1;
    const unsigned told = word_at(message_, 4);
    const bool sound = word_at(message_, 2) == 0 && told >= kAddressAndCheck && told <= kLongest;
    return sound ? kHeader + told : message_.size();
  }
  if (message_.size() < 3) return 4;
  const bool exception = (byte_at(message_, 1) & kException) != 0;
  return kAddressAndCheck + (exception ? 2 : 2 + byte_at(message_, 2));
}

Event ModbusDecoder::take_message() {
  if (damaged_) return drop(FaultReason::parity, "a byte was damaged on the wire");
  const bool stale = network_ && message_.size() > kHeader && word_at(message_, 0) != transaction_;
  Parsed parsed = parse(message_);
  if (!parsed) {
    Fault fault = drop(parsed.error().why, std::move(parsed.error().text));
    fault.stale = stale;
    return fault;
  }
  parsed->raw = std::exchange(message_, {});
  return std::move(*parsed);
}

/// Unit, function and data, once what is around them holds.
tl::expected<std::string_view, Wrong> ModbusDecoder::unwrapped(std::string_view message) const {
  if (network_) {
    if (message.size() <= kHeader) return bad_frame("that is no Modbus message");
    if (word_at(message, 0) != transaction_) return bad_frame("the answer belongs to another question");
    return message.substr(kHeader);
  }
  const std::string_view body = message.substr(0, message.size() - 2);
  if (message.substr(body.size()) != checksum(body)) return bad_frame("the checksum is wrong");
  return body;
}

Parsed ModbusDecoder::parse(std::string_view message) const {
  const auto body = unwrapped(message);
  if (!body) return tl::unexpected(body.error());
  if (byte_at(*body, 0) != static_cast<unsigned>(profile_.modbus.unit_id)) return bad_frame("another unit answers");
  if (byte_at(*body, 1) == (function() | kException)) return bad_frame(exception_words(byte_at(*body, 2)));
  if (byte_at(*body, 1) != function()) return bad_frame("the answer is to another function");
  const std::size_t bytes = 2 * registers(profile_.modbus);
  if (body->size() != 3 + bytes || byte_at(*body, 2) != bytes)
    return bad_frame("the answer has not as many registers as asked for");
  auto number = register_number(profile_.modbus, body->substr(3));
  if (!number) return tl::unexpected(std::move(number.error()));
  return measured(profile_, *number, *number, unit_, false);
}

std::vector<Event> ModbusDecoder::break_off(const std::string& how) {
  std::vector<Event> events = take_rest();
  if (!message_.empty()) events.push_back(drop(damaged_ ? FaultReason::parity : FaultReason::cut_short, how));
  return events;
}

std::vector<Event> ModbusDecoder::take_rest() {
  return std::exchange(rest_, {});
}

Fault ModbusDecoder::drop(FaultReason why, std::string text) {
  damaged_ = false;
  const std::size_t bytes = message_.size();
  return Fault{why, std::move(text), std::exchange(message_, {}).substr(0, kMostRaw), bytes};
}

}  // namespace

std::unique_ptr<Decoder> make_modbus(const Profile& profile, std::optional<Unit> unit, Wire wire) {
  return std::make_unique<ModbusDecoder>(profile, profile.value.unit ? *profile.value.unit : unit.value_or(Unit::mm),
                                         wire);
}

}  // namespace tenth::drivers
