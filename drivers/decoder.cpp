#include "drivers/decoder.hpp"

namespace tenth::drivers {

std::string_view name(FaultReason why) {
  switch (why) {
    case FaultReason::bad_frame:
      return "bad_frame";
    case FaultReason::too_long:
      return "too_long";
    case FaultReason::cut_short:
      return "cut_short";
    case FaultReason::noise:
      return "noise";
    case FaultReason::parity:
      return "parity";
    case FaultReason::status:
      return "status";
    case FaultReason::silent:
      return "silent";
    case FaultReason::out_of_range:
      return "out_of_range";
    case FaultReason::turning:
      return "turning";
  }
  return "";
}

}  // namespace tenth::drivers
