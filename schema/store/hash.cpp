#include "schema/store/hash.hpp"

#include <sodium.h>

#include <algorithm>
#include <cassert>
#include <vector>

namespace tenth {
namespace {

const unsigned char* octets(std::string_view bytes) {
  return reinterpret_cast<const unsigned char*>(bytes.data());
}

std::string hex(const unsigned char* bytes, std::size_t count) {
  std::string text(2 * count + 1, '\0');
  sodium_bin2hex(text.data(), text.size(), bytes, count);
  text.pop_back();  // sodium ends the text with a zero byte
  return text;
}

}  // namespace

Digest sha256(std::string_view bytes) {
  Digest digest;
  crypto_hash_sha256(digest.data(), octets(bytes), bytes.size());
  return digest;
}

Digest chain(const Digest& before, const Digest& body_digest) {
  std::array<std::uint8_t, 64> both;
  std::copy(before.begin(), before.end(), both.begin());
  std::copy(body_digest.begin(), body_digest.end(), both.begin() + 32);
  Digest digest;
  crypto_hash_sha256(digest.data(), both.data(), both.size());
  return digest;
}

std::string hex(const Digest& digest) {
  return hex(digest.data(), digest.size());
}

std::optional<Digest> digest_from_hex(std::string_view text) {
  Digest digest;
  if (text.size() != 2 * digest.size()) return std::nullopt;
  std::size_t count = 0;
  const int failed = sodium_hex2bin(digest.data(), digest.size(), text.data(), text.size(), nullptr, &count, nullptr);
  if (failed != 0 || count != digest.size()) return std::nullopt;
  return digest;
}

std::string random_hex(std::size_t bytes) {
  [[maybe_unused]] static const int ready = sodium_init();
  assert(ready >= 0);
  std::vector<unsigned char> random(bytes);
  randombytes_buf(random.data(), random.size());
  return hex(random.data(), random.size());
}

}  // namespace tenth
