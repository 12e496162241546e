// Checked against RFC 8785: appendix B (tests/references/canonical_numbers.csv), the samples of sections 3.2.2-3.2.4,
// and the number file that its authors publish as a rule with the SHA-256 of its first n lines.
#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <cstring>
#include <fstream>
#include <limits>

#include "schema/json/json.hpp"
#include "schema/store/hash.hpp"

namespace tenth {
namespace {

Json parsed(std::string_view text) {
  auto value = parse_json(text, 1 << 20);
  EXPECT_TRUE(value) << text;
  return value ? *value : Json();
}

double from_bits(const std::string& hex_bits) {
  return std::bit_cast<double>(std::stoull(hex_bits, nullptr, 16));
}

std::ifstream reference(const std::string& name) {
  std::ifstream file(std::string(TENTH_SOURCE_DIR "/tests/references/") + name);
  EXPECT_TRUE(file) << name;
  return file;
}

TEST(Canonical, WritesNumbersAsAppendixB) {
  auto file = reference("canonical_numbers.csv");
  std::string line;
  std::getline(file, line);
  int rows = 0;
  for (; std::getline(file, line); ++rows) {
    const double number = from_bits(line.substr(0, 16));
    const std::string text = line.substr(17);
    if (text == "refused") {
      EXPECT_THROW(canonical(number), std::invalid_argument) << line;
    } else {
      EXPECT_EQ(canonical(number), text);
    }
  }
  EXPECT_EQ(rows, 26);
}

/// The number file: 168 listed values, 2000 that count up from the smallest normal number, then the digests of a
/// SHA-256 chain, each as four little-endian binary64s, without zeros and what is not finite.
class NumberFile {
 public:
  std::uint64_t next() {
    const std::size_t n = count_++;
    if (n < listed_.size()) return listed_[n];
    if (n < listed_.size() + 2000) return 0x0010000000000000 + (n - listed_.size());
    for (;;) {
      if (quarter_ == 4) advance();
      std::uint64_t bits = 0;
      std::memcpy(&bits, digest_.data() + 8 * quarter_++, 8);
      const double number = std::bit_cast<double>(bits);
      if (number != 0 && std::isfinite(number)) return bits;
    }
  }

 private:
  void advance() {
    digest_ = sha256({reinterpret_cast<const char*>(digest_.data()), digest_.size()});
    quarter_ = 0;
  }

  static std::vector<std::uint64_t> listed() {
    auto file = reference("canonical_number_file.txt");
    std::vector<std::uint64_t> values;
    for (std::string line; std::getline(file, line);) values.push_back(std::stoull(line, nullptr, 16));
    return values;
  }

  std::vector<std::uint64_t> listed_ = listed();
  std::size_t count_ = 0;
  Digest digest_{};
  std::size_t quarter_ = 4;
};

TEST(Canonical, WritesTheNumberFile) {
  const std::map<int, std::string> hashes = {
      {1'000, "be18b62b6f69cdab33a7e0dae0d9cfa869fda80ddc712221570f9f40a5878687"},
      {10'000, "b9f7a8e75ef22a835685a52ccba7f7d6bdc99e34b010992cbc5864cd12be6892"},
      {100'000, "22776e6d4b49fa294a0d0f349268e5c28808fe7e0cb2bcbe28f63894e494d4c7"},
  };
  NumberFile numbers;
  std::string text;
  for (int n = 1; n <= 100'000; ++n) {
    const std::uint64_t bits = numbers.next();
    char hex_bits[17];
    std::snprintf(hex_bits, sizeof hex_bits, "%llx", static_cast<unsigned long long>(bits));
    text.append(hex_bits).append(",").append(canonical(std::bit_cast<double>(bits))).append("\n");
    const auto hash = hashes.find(n);
    if (hash != hashes.end()) {
      EXPECT_EQ(hex(sha256(text)), hash->second) << n;
    }
  }
}

TEST(Canonical, WritesIntegersBeyondExactnessAsTheBinary64TheyRoundTo) {
  EXPECT_EQ(canonical(9007199254740991), "9007199254740991");
  EXPECT_EQ(canonical(-9007199254740991), "-9007199254740991");
  EXPECT_EQ(canonical(9007199254740993), "9007199254740992");
  EXPECT_EQ(canonical(std::numeric_limits<std::int64_t>::min()), "-9223372036854776000");
  EXPECT_EQ(canonical(std::numeric_limits<std::uint64_t>::max()), "18446744073709552000");
}

TEST(Canonical, WritesTheWholeDocumentOfSection322) {
  const std::string in = R"({
  "numbers": [333333333.33333329, 1E30, 4.50,
              2e-3, 0.000000000000000000000000001],
  "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
  "literals": [null, true, false]
})";
  const std::string out = canonical(parsed(in));
  EXPECT_EQ(out,
            "{\"literals\":[null,true,false],\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],"
            "\"string\":\"\xE2\x82\xAC$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}");
  EXPECT_EQ(out.size(), 118u);
  EXPECT_EQ(hex(sha256(out)), "2d5e01a318d0f0879ab568c4be289c8b1f64ef8921a53c6277d5e069978baacb");
}

TEST(Canonical, SortsNamesByUtf16CodeUnits) {
  const std::string out = canonical(parsed(
      R"({"\u20ac":"Euro Sign","\r":"Carriage Return","\ufb33":"Hebrew Letter Dalet With Dagesh","1":"One",)"
      R"("\ud83d\ude00":"Emoji: Grinning Face","\u0080":"Control","\u00f6":"Latin Small Letter O With Diaeresis"})"));
  std::size_t before = 0;
  for (const char* value : {"Carriage Return", "One", "Control", "Latin Small Letter O With Diaeresis", "Euro Sign",
                            "Emoji: Grinning Face", "Hebrew Letter Dalet With Dagesh"}) {
    const std::size_t at = out.find(value);
    EXPECT_NE(at, std::string::npos) << value;
    EXPECT_LT(before, at) << value;
    before = at;
  }
  EXPECT_EQ(out.size(), 180u);
  EXPECT_EQ(hex(sha256(out)), "5e321556d22018a9656991a9e94f77ec175fa193e52a2429d312f8419ec8b08c");
}

TEST(Canonical, SortsAtEveryDepthAndKeepsTheOrderOfArrays) {
  EXPECT_EQ(canonical(parsed(R"([56, {"d": true, "10": null, "1": [ ]}])")), R"([56,{"1":[],"10":null,"d":true}])");
  EXPECT_EQ(canonical(parsed(R"({"1": {"f": {"f": "hi","F": 5} ,"\n": 56.0}, "10": { }, "": "empty", "a": { }, )"
                             R"("111": [ {"e": "yes","E": "no" } ], "A": { }})")),
            R"({"":"empty","1":{"\n":56,"f":{"F":5,"f":"hi"}},"10":{},"111":[{"E":"no","e":"yes"}],"A":{},"a":{}})");
}

TEST(Canonical, DoesNotNormaliseText) {
  EXPECT_EQ(canonical(parsed(R"({"Unnormalized Unicode":"A\u030a"})")), "{\"Unnormalized Unicode\":\"A\xCC\x8A\"}");
}

TEST(Canonical, EscapesControlCharactersAndNothingElse) {
  std::string all;
  for (char c = 0; c < 0x20; ++c) all += c;
  EXPECT_EQ(canonical(all + "\"\\/\x7F"),
            R"("\u0000\u0001\u0002\u0003\u0004\u0005\u0006\u0007\b\t\n\u000b\f\r\u000e\u000f\u0010\u0011\u0012\u0013)"
            R"(\u0014\u0015\u0016\u0017\u0018\u0019\u001a\u001b\u001c\u001d\u001e\u001f\"\\/)"
            "\x7F\"");
}

TEST(Canonical, RefusesWhatJsonCannotHold) {
  EXPECT_THROW(canonical("a\xFFz"), std::invalid_argument);
  EXPECT_THROW(canonical("\xED\xA0\x80"), std::invalid_argument) << "a lone surrogate";
  EXPECT_THROW(canonical(Json{{"\xC0\x80", 1}}), std::invalid_argument) << "in a name";
  EXPECT_THROW(canonical(Json::binary({1, 2})), std::invalid_argument);
}

TEST(Canonical, IsTheSameAgain) {
  const std::string once = canonical(parsed(R"({"b":[1e-9,83.0104,-0.0,9007199254740993,1e21],"a":"\u00e9\u0001"})"));
  EXPECT_EQ(once, "{\"a\":\"\xC3\xA9\\u0001\",\"b\":[1e-9,83.0104,0,9007199254740992,1e+21]}");
  EXPECT_EQ(canonical(parsed(once)), once);
}

}  // namespace
}  // namespace tenth
