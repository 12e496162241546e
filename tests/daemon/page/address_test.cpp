#include "daemon/page/address.hpp"

#include <gtest/gtest.h>

namespace tenth {
namespace {

std::string read(const std::string& text) {
  const auto endpoint = page_endpoint(text);
  if (endpoint) return authority(*endpoint);
  EXPECT_EQ(endpoint.error().exit, Exit::words);
  return "refused";
}

TEST(PageAddress, IsAnAddressAndAPort) {
  EXPECT_EQ(read("127.0.0.1:8642"), "127.0.0.1:8642");
  EXPECT_EQ(read("[::1]:8642"), "[::1]:8642");
  EXPECT_EQ(read("localhost:0"), "127.0.0.1:0");
  EXPECT_EQ(read("0.0.0.0:80"), "0.0.0.0:80");
}

TEST(PageAddress, IsNeverGuessed) {
  for (const char* text :
       {"", "8642", ":8642", "127.0.0.1", "127.0.0.1:", "127.0.0.1:x", "127.0.0.1:65536", "127.0.0.1:-1",
        "127.0.0.1: 80", "::1:8642", "bench.example:80", "[127.0.0.1:80", "on", "http://127.0.0.1:80"})
    EXPECT_EQ(read(text), "refused") << text;
}

}  // namespace
}  // namespace tenth
