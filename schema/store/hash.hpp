#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace tenth {

using Digest = std::array<std::uint8_t, 32>;

/// SHA-256 (FIPS 180-4).
Digest sha256(std::string_view bytes);

/// The chain: SHA-256 over the hash of the row before (32 zero bytes before the first) followed by SHA-256 of the body.
Digest chain(const Digest& before, const Digest& body_digest);

std::string hex(const Digest& digest);
std::optional<Digest> digest_from_hex(std::string_view text);

/// `bytes` random bytes as hex, from the system's generator.
std::string random_hex(std::size_t bytes);

}  // namespace tenth
