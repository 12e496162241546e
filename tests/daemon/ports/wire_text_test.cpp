#include "daemon/ports/wire_text.hpp"

#include <gtest/gtest.h>

#include <vector>

namespace tenth {
namespace {

TEST(WireText, IsAsRecordingsAreWritten) {
  EXPECT_EQ(wire_text("83.01 mm\r"), "83.01 mm\\x0D");
  EXPECT_EQ(wire_text("a\\x41"), "a\\x5Cx41") << "a backslash never stands for itself";
  EXPECT_EQ(wire_text("\x7F\x80~ "), "\\x7F\\x80~ ");
  EXPECT_EQ(wire_text(std::vector<drivers::Received>{{'8', false}, {'3', true}}), "8\\!33");
}

}  // namespace
}  // namespace tenth
