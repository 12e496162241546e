#include <gtest/gtest.h>

#include "tests/cli/program.hpp"

namespace tenth::cli {
namespace {

TEST(Page, PrintsTheAddressAndNothingElse) {
  FakeDaemon daemon;
  daemon.answers("page", {{"url", "http://127.0.0.1:8642/#token=abc"}});
  EXPECT_EQ(run_at(daemon, {"page"}).out, "http://127.0.0.1:8642/#token=abc\n");
  EXPECT_EQ(run_at(daemon, {"page", "--json"}).json(), (Json{{"url", "http://127.0.0.1:8642/#token=abc"}}));
}

TEST(Page, SaysWhatToDoWhereThereIsNone) {
  FakeDaemon daemon;
  daemon.refuses("page",
                 {Exit::refused, "page_off", "this tenthd serves no page", "start it with --http 127.0.0.1:8642"});
  const auto ran = run_at(daemon, {"page"});
  EXPECT_EQ(ran.exit, 4);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(ran.err.find("--http"), std::string::npos);
}

}  // namespace
}  // namespace tenth::cli
