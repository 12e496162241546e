#pragma once

#include <string>
#include <string_view>

namespace tenth::simulators {

/// What goes wrong with a frame on its way. half: only its first half arrives; doubled: its middle byte comes twice;
/// dropped: that byte is missing; noisy: noise comes before it. Of a Modbus answer also: crc, transaction: that field
/// is wrong; exception: it is one.
enum class Slip { none, half, doubled, dropped, noisy, crc, transaction, exception };

/// The bytes of a frame, gone wrong on their way.
std::string spoilt(std::string bytes, Slip slip);

}  // namespace tenth::simulators
