// Messages of FIPS 180-2 appendix B and of the CAVP short-message vectors; the chain's two rows are our own, worked by
// hand with two other SHA-256 programs (schema/ledger.md).
#include "schema/store/hash.hpp"

#include <gtest/gtest.h>

#include <set>

namespace tenth {
namespace {

TEST(Sha256, GivesThePublishedDigests) {
  const std::pair<std::string, const char*> vectors[] = {
      {"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
      {"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
      {"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
       "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
      {std::string(1'000'000, 'a'), "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0"},
      {"\xd3", "28969cdfa74a12c82f3bad960b0b000aca2ac329deea5c2328ebc6f2ba9802c1"},
      {"\x11\xaf", "5ca7133fa735326081558ac312c620eeca9970d1e70a4b95533d956f072d1f98"},
      {"\xb4\x19\x0e", "dff2e73091f6c05e528896c4c831b9448653dc2ff043528f6769437bc7b975c2"},
      {"\x74\xba\x25\x21", "b16aa56be3880d18cd41e68384cf1ec8c17680c45a02b1575dc1518923ae8b0e"},
  };
  for (const auto& [message, digest] : vectors) EXPECT_EQ(hex(sha256(message)), digest);
}

TEST(Chain, GivesTheWorkedRows) {
  const Digest first = chain(Digest{}, sha256(R"({"kind":"operator","name":"ann","time":"2026-01-02T03:04:05Z"})"));
  EXPECT_EQ(hex(first), "483575da18876a8e4291604fef18dab19c9120c5446eaccdd41039596ccefe2b");
  const Digest second = chain(
      first, sha256("{\"kind\":\"note\",\"text\":\"caf\xC3\xA9 \xE2\x82\xAC\",\"time\":\"2026-01-02T03:04:06Z\"}"));
  EXPECT_EQ(hex(second), "558c335a0e10c444bd20e6191d2f992efa0f11b8c2a2b52e3402482b084ab192");
}

TEST(Hex, ComesBack) {
  const Digest digest = sha256("abc");
  EXPECT_EQ(digest_from_hex(hex(digest)), digest);
  EXPECT_EQ(digest_from_hex("BA7816BF8F01CFEA414140DE5DAE2223B00361A396177A9CB410FF61F20015AD"), digest);
}

TEST(Hex, RefusesWhatIsNoDigest) {
  const std::string good = hex(sha256("abc"));
  for (const std::string& bad :
       {std::string(), good.substr(1), good + "0", "g" + good.substr(1), good.substr(0, 63) + " "}) {
    EXPECT_EQ(digest_from_hex(bad), std::nullopt) << bad;
  }
}

TEST(RandomHex, HasTheLengthAndDiffers) {
  std::set<std::string> seen;
  for (int i = 0; i < 100; ++i) seen.insert(random_hex(8));
  EXPECT_EQ(seen.size(), 100u);
  for (const std::string& text : seen) {
    EXPECT_EQ(text.size(), 16u);
    EXPECT_EQ(text.find_first_not_of("0123456789abcdef"), std::string::npos);
  }
}

}  // namespace
}  // namespace tenth
