#include "simulators/modbus.hpp"

#include "simulators/encode/crc16.hpp"

namespace tenth::simulators {

namespace {

constexpr int kIllegalFunction = 1, kIllegalAddress = 2, kIllegalValue = 3;

std::uint16_t word(std::string_view bytes, std::size_t at) {
  return static_cast<std::uint16_t>(static_cast<unsigned char>(bytes[at]) << 8 |
                                    static_cast<unsigned char>(bytes[at + 1]));
}

void put(std::string& bytes, std::size_t value) {
  bytes += static_cast<char>(value >> 8 & 0xFF);
  bytes += static_cast<char>(value & 0xFF);
}

}  // namespace

std::optional<Question> take_rtu(std::string& heard) {
  constexpr std::size_t kLength = 8;
  for (; heard.size() >= kLength; heard.erase(0, 1)) {
    const auto body = std::string_view(heard).substr(0, kLength - 2);
    const auto crc = crc16(body);
    if (word(heard, kLength - 2) != static_cast<std::uint16_t>(crc << 8 | crc >> 8)) continue;
    Question question{{}, static_cast<std::uint8_t>(body[0]), std::string(body.substr(1))};
    heard.erase(0, kLength);
    return question;
  }
  return std::nullopt;
}

std::optional<Question> take_tcp(std::string& heard) {
  constexpr std::size_t kHeader = 7, kMost = 254;
  while (heard.size() >= kHeader) {
    const std::size_t length = word(heard, 4);
    const bool right = word(heard, 2) == 0 && length >= 2 && length <= kMost;
    if (!right) {
      heard.clear();
    } else if (heard.size() < kHeader - 1 + length) {
      break;
    } else {
      Question question{word(heard, 0), static_cast<std::uint8_t>(heard[6]), heard.substr(kHeader, length - 1)};
      heard.erase(0, kHeader - 1 + length);
      return question;
    }
  }
  return std::nullopt;
}

std::string answer(const Question& question, const Registers& input, const Registers& holding) {
  constexpr std::size_t kMost = 125;
  const auto& pdu = question.pdu;
  if (pdu[0] != 3 && pdu[0] != 4) return exception(question, kIllegalFunction);
  if (pdu.size() != 5 || word(pdu, 3) == 0 || word(pdu, 3) > kMost) return exception(question, kIllegalValue);
  const std::size_t count = word(pdu, 3);
  const auto& table = pdu[0] == 3 ? holding : input;
  std::string said{pdu[0], static_cast<char>(2 * count)};
  for (std::size_t i = 0; i < count; ++i) {
    const auto found = table.find(word(pdu, 1) + static_cast<int>(i));
    if (found == table.end()) return exception(question, kIllegalAddress);
    put(said, found->second);
  }
  return said;
}

bool asks_for(const Question& question, const RegisterMap& map) {
  const auto& pdu = question.pdu;
  return pdu.size() >= 3 && pdu[0] == (map.table == Table::holding ? 3 : 4) && word(pdu, 1) == map.address;
}

std::string exception(const Question& question, int code) {
  return {static_cast<char>(question.pdu[0] | 0x80), static_cast<char>(code)};
}

std::string framed(const Question& question, const std::string& pdu, Slip slip) {
  std::string bytes;
  if (question.transaction) {
    put(bytes, *question.transaction + (slip == Slip::transaction ? 1U : 0U));
    put(bytes, 0);
    put(bytes, pdu.size() + 1);
  }
  bytes += static_cast<char>(question.unit_id);
  bytes += pdu;
  if (question.transaction) return bytes;
  const auto crc = static_cast<std::size_t>(crc16(bytes) ^ (slip == Slip::crc ? 1U : 0U));
  put(bytes, crc << 8 | crc >> 8);
  return bytes;
}

}  // namespace tenth::simulators
