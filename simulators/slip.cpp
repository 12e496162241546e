#include "simulators/slip.hpp"

namespace tenth::simulators {

std::string spoilt(std::string bytes, Slip slip) {
  const auto middle = bytes.size() / 2;
  if (slip == Slip::half) bytes.resize(middle);
  if (slip == Slip::doubled) bytes.insert(middle, 1, bytes[middle]);
  if (slip == Slip::dropped) bytes.erase(middle, 1);
  if (slip == Slip::noisy) bytes.insert(0, "\xFF\x80\x13");
  return bytes;
}

}  // namespace tenth::simulators
