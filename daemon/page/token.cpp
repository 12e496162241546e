#include "daemon/page/token.hpp"

#include <fcntl.h>
#include <sodium.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>

namespace tenth {
namespace {

constexpr std::size_t kFewest = 32, kMost = 256;

using Hash = std::array<unsigned char, crypto_generichash_BYTES>;

Hash hash_of(std::string_view text) {
  Hash hash{};
  const std::string bytes(text);
  crypto_generichash(hash.data(), hash.size(), reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(),
                     nullptr, 0);
  return hash;
}

bool is_token(std::string_view text) {
  const auto fits = [](char c) {
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
  };
  return text.size() >= kFewest && text.size() <= kMost && std::ranges::all_of(text, fits);
}

auto refused(const std::filesystem::path& file, const std::string& why) {
  return refuse("token_file", "the token file " + file.string() + " " + why,
                "write 32 to 256 letters and digits into it, mode 0600");
}

/// Opened first, then looked at: what is looked at is what is read.
class Opened {
 public:
  explicit Opened(const std::filesystem::path& file)
      : descriptor_(::open(file.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK)) {}
  Opened(const Opened&) = delete;
  Opened& operator=(const Opened&) = delete;
  ~Opened() {
    if (descriptor_ >= 0) ::close(descriptor_);
  }
  int descriptor() const { return descriptor_; }

 private:
  int descriptor_;
};

}  // namespace

Token Token::make() {
  std::array<unsigned char, 32> bits{};
  randombytes_buf(bits.data(), bits.size());
  std::array<char, sodium_base64_ENCODED_LEN(32, sodium_base64_VARIANT_URLSAFE_NO_PADDING)> text{};
  sodium_bin2base64(text.data(), text.size(), bits.data(), bits.size(), sodium_base64_VARIANT_URLSAFE_NO_PADDING);
  return Token(text.data());
}

Result<Token> Token::from_file(const std::filesystem::path& file) {
  const Opened opened(file);
  struct stat status{};
  if (opened.descriptor() < 0 || ::fstat(opened.descriptor(), &status) != 0 || !S_ISREG(status.st_mode))
    return refused(file, "cannot be read");
  if ((status.st_mode & (S_IRWXG | S_IRWXO)) != 0) return refused(file, "may be read or written by others");
  std::array<char, kMost + 2> bytes{};
  const ssize_t count = ::read(opened.descriptor(), bytes.data(), bytes.size());
  if (count < 0) return refused(file, "cannot be read");
  std::string text(bytes.data(), static_cast<std::size_t>(count));
  if (text.ends_with('\n')) text.pop_back();
  if (!is_token(text)) return refused(file, "holds no token");
  return Token(std::move(text));
}

bool Token::matches(std::string_view given) const {
  const Hash mine = hash_of(text_), theirs = hash_of(given);
  return sodium_memcmp(mine.data(), theirs.data(), mine.size()) == 0;
}

}  // namespace tenth
