#include "simulators/wire.hpp"

namespace tenth::simulators {

Result<void> Wire::send(std::string_view bytes) {
  const auto sent = offer(bytes);
  if (!sent) return tl::unexpected(sent.error());
  if (*sent == bytes.size()) return {};
  return tl::unexpected(where() + " is full: nobody reads it");
}

}  // namespace tenth::simulators
