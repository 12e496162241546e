#include "simulators/act.hpp"

#include <gtest/gtest.h>

#include <ostream>

namespace tenth::simulators {
namespace {

template <class Kind>
Kind act(std::string_view words) {
  return std::get<Kind>(parse_act(words).value());
}

TEST(ParseAct, Press) {
  EXPECT_EQ(act<Press>("press bore").gauge, "bore");
  EXPECT_FALSE(act<Press>("press bore").value);
  EXPECT_EQ(act<Press>("  press\tbore   83.012 ").value, Amount{83'012'000});
  EXPECT_EQ(act<Press>("press bore 83.012 in in").unit, Unit::in);
  EXPECT_EQ(act<Press>("press bore in mm").unit, Unit::mm);
  EXPECT_EQ(act<Press>("press bore half").slip, Slip::half);
  EXPECT_EQ(act<Press>("press bore 1 doubled").slip, Slip::doubled);
  EXPECT_EQ(act<Press>("press bore 1 in in noisy").slip, Slip::noisy);
  EXPECT_EQ(act<Press>("press bore").slip, Slip::none);
}

TEST(ParseAct, RawBytes) {
  EXPECT_EQ(act<Raw>("raw bore 83.012").bytes, "83.012");
  EXPECT_EQ(act<Raw>(R"(raw bore a\r\n\t\\\x00\xfF)").bytes, std::string("a\r\n\t\\\0\xFF", 7));
  EXPECT_EQ(act<Raw>("raw bore  +1 2 ").bytes, " +1 2 ") << "blanks after the first are sent too";
}

TEST(ParseAct, TheOthers) {
  EXPECT_EQ(act<Drift>("drift bore -0.0002").by, Amount{-200});
  EXPECT_EQ(act<HangUp>("hangup bore").gauge, "bore");
  EXPECT_EQ(act<Return>("return bore").gauge, "bore");
  EXPECT_EQ(act<Wait>("wait 250").time, std::chrono::milliseconds(250));
  EXPECT_FALSE(act<Wait>("wait told").time);
}

TEST(ParseAct, NamesItsGauge) {
  EXPECT_EQ(gauge_of(Press{.gauge = "a"}), "a");
  EXPECT_EQ(gauge_of(Raw{"b", ""}), "b");
  EXPECT_EQ(gauge_of(Wait{}), "");
}

struct Wrong {
  const char *words, *right;
};

void PrintTo(const Wrong& wrong, std::ostream* out) {
  *out << testing::PrintToString(wrong.words);
}

class WrongAct : public testing::TestWithParam<Wrong> {};

TEST_P(WrongAct, IsToldWhatWouldBeRight) {
  const auto read = parse_act(GetParam().words);
  ASSERT_FALSE(read);
  EXPECT_NE(read.error().find(GetParam().right), std::string::npos) << read.error();
}

INSTANTIATE_TEST_SUITE_P(
    Words, WrongAct,
    testing::Values(Wrong{"", "write press, noise, "}, Wrong{"pres bore", "'pres' is not understood"},
                    Wrong{"press", "press GAUGE [VALUE]"}, Wrong{"press bore 8x", "'8x' is no value"},
                    Wrong{"press bore 1 in cm", "'cm' is no unit"},
                    Wrong{"press bore 1 in", "it breaks off: write press GAUGE"},
                    Wrong{"press bore 1 loudly", "'loudly' is not understood"},
                    Wrong{"press bore half 1", "'1' is not understood"}, Wrong{"raw bore", "raw GAUGE BYTES"},
                    Wrong{"raw bore a\\", "\\xHH"}, Wrong{"raw bore \\x4", "\\xHH"}, Wrong{"raw bore \\q", "\\q"},
                    Wrong{"drift bore", "drift GAUGE AMOUNT"}, Wrong{"drift bore x", "'x' is no value"},
                    Wrong{"hangup", "hangup GAUGE"}, Wrong{"return a b", "return GAUGE"},
                    Wrong{"wait", "wait MILLISECONDS or wait told"}, Wrong{"wait -1", "'-1' is not understood"},
                    Wrong{"wait 5s", "'5s' is not understood"}, Wrong{"wait 3600001", "wait MILLISECONDS"}));

}  // namespace
}  // namespace tenth::simulators
