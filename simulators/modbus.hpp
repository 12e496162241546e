#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>

#include "simulators/encode/registers.hpp"
#include "simulators/slip.hpp"

namespace tenth::simulators {

// A Modbus device as the Application Protocol V1.1b3 describes it: only what reads registers (functions 3 and 4).

/// A question, in either of the two framings. `pdu` is function and data.
struct Question {
  std::optional<std::uint16_t> transaction;  ///< TCP only
  std::uint8_t unit_id = 0;
  std::string pdu;
};

/// Takes the first whole question off the bytes that have come; what can begin none goes with it.
/// RTU (over Serial Line V1.02, 2.5.1): unit, PDU, CRC with its low byte first. A question for registers has 8 bytes.
std::optional<Question> take_rtu(std::string& heard);

/// TCP (Messaging on TCP/IP V1.0b, 3.1.3): transaction, protocol 0, length, unit, PDU.
std::optional<Question> take_tcp(std::string& heard);

/// Registers of one device by their address.
using Registers = std::map<int, std::uint16_t>;

/// The PDU that answers: values, or exception 1 (function), 2 (address) or 3 (how many).
std::string answer(const Question& question, const Registers& input, const Registers& holding);

/// Whether the registers asked for begin with those of the map.
bool asks_for(const Question& question, const RegisterMap& map);

/// The PDU of an exception.
std::string exception(const Question& question, int code);

/// The PDU framed as its question was. A slip spoils CRC or transaction.
std::string framed(const Question& question, const std::string& pdu, Slip slip);

}  // namespace tenth::simulators
