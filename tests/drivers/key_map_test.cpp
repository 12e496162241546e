#include "drivers/keys/key_map.hpp"

#include <gtest/gtest.h>
#include <linux/input-event-codes.h>

namespace tenth::drivers {
namespace {

constexpr std::int32_t kReleased = 0, kPressed = 1, kHeld = 2;

class KeyMapTest : public testing::Test {
 protected:
  /// What is typed when each key is pressed and let go.
  std::string typed(std::initializer_list<std::uint16_t> codes) {
    std::string text;
    for (const std::uint16_t code : codes) {
      if (const auto c = map_.take(code, kPressed)) text.push_back(*c);
      EXPECT_EQ(map_.take(code, kReleased), std::nullopt);
    }
    return text;
  }
  KeyMap map_ = KeyMap::make({}).value();
};

// USB HID Usage Tables, keyboard page 0x07: 1E to 27 are 1 to 9 and 0, 37 point, 36 comma, 2D minus, 28 Enter, 2B Tab;
// from memory.
TEST_F(KeyMapTest, DigitsAndSigns) {
  EXPECT_EQ(typed({KEY_1, KEY_2, KEY_3, KEY_4, KEY_5, KEY_6, KEY_7, KEY_8, KEY_9, KEY_0}), "1234567890");
  EXPECT_EQ(typed({KEY_MINUS, KEY_8, KEY_DOT, KEY_5, KEY_COMMA, KEY_SPACE, KEY_ENTER, KEY_TAB}), "-8.5, \n\t");
  EXPECT_EQ(typed({KEY_M, KEY_M, KEY_I, KEY_N}), "mmin");
}

TEST_F(KeyMapTest, TheKeypadTypesTheSame) {
  EXPECT_EQ(typed({KEY_KP1, KEY_KP2, KEY_KP3, KEY_KP4, KEY_KP5, KEY_KP6, KEY_KP7, KEY_KP8, KEY_KP9, KEY_KP0}),
            "1234567890");
  EXPECT_EQ(typed({KEY_KPMINUS, KEY_KPPLUS, KEY_KPDOT, KEY_KPCOMMA, KEY_KPENTER}), "-+.,\n");
}

TEST_F(KeyMapTest, ShiftLastsWhileItIsDown) {
  EXPECT_EQ(map_.take(KEY_LEFTSHIFT, kPressed), std::nullopt);
  EXPECT_EQ(map_.take(KEY_LEFTSHIFT, kHeld), std::nullopt);
  EXPECT_EQ(typed({KEY_EQUAL, KEY_K, KEY_KP1}), "+K1");
  map_.take(KEY_LEFTSHIFT, kReleased);
  EXPECT_EQ(typed({KEY_EQUAL, KEY_K}), "=k");
}

TEST_F(KeyMapTest, OneShiftStaysWhenTheOtherIsLetGo) {
  map_.take(KEY_LEFTSHIFT, kPressed);
  map_.take(KEY_RIGHTSHIFT, kPressed);
  map_.take(KEY_LEFTSHIFT, kReleased);
  EXPECT_EQ(typed({KEY_EQUAL}), "+");
  map_.take(KEY_RIGHTSHIFT, kReleased);
  EXPECT_EQ(typed({KEY_EQUAL}), "=");
}

TEST_F(KeyMapTest, AKeyThatIsHeldTypesOnce) {
  EXPECT_EQ(map_.take(KEY_8, kPressed), '8');
  for (int i = 0; i < 50; ++i) EXPECT_EQ(map_.take(KEY_8, kHeld), std::nullopt);
  EXPECT_EQ(map_.take(KEY_8, kReleased), std::nullopt);
}

TEST_F(KeyMapTest, OtherKeysTypeNothing) {
  EXPECT_EQ(typed({KEY_ESC, KEY_F1, KEY_LEFTCTRL, KEY_VOLUMEUP, BTN_LEFT, 0, 0xFFFF}), "");
}

TEST(KeyMap, AProfileChangesSingleKeys) {
  KeyMap map = KeyMap::make({{"KEY_COMMA", "."}, {"KEY_Z", "y"}}).value();
  EXPECT_EQ(map.take(KEY_COMMA, kPressed), '.');
  EXPECT_EQ(map.take(KEY_Z, kPressed), 'y');
  map.take(KEY_RIGHTSHIFT, kPressed);
  EXPECT_EQ(map.take(KEY_COMMA, kPressed), '.') << "with shift too";
  EXPECT_EQ(map.take(KEY_Y, kPressed), 'Y') << "the others stay";
}

TEST(KeyMap, ANameThatIsNoKeyIsRefused) {
  for (const char* const name : {"KEY_NONSENSE", "KEY_LEFTSHIFT", "comma", ""}) {
    const auto map = KeyMap::make({{name, "."}});
    ASSERT_FALSE(map) << name;
    EXPECT_EQ(map.error().code, "profile");
    EXPECT_NE(map.error().remedy.find("KEY_COMMA"), std::string::npos);
  }
}

}  // namespace
}  // namespace tenth::drivers
