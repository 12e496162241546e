#include "drivers/link/name_lookup.hpp"

#include <gtest/gtest.h>

#include <boost/asio/co_spawn.hpp>
#include <boost/asio/io_context.hpp>
#include <future>
#include <optional>
#include <thread>

namespace tenth::drivers {
namespace {

namespace asio = boost::asio;
using std::chrono::milliseconds;
using Steady = std::chrono::steady_clock;
using Found = std::optional<Result<Addresses>>;

asio::awaitable<void> find(NameLookup& names, std::string host, Found& found) {
  found = co_await names.find(host, "4001");
}

void rethrow(const std::exception_ptr& error) {
  if (error) std::rethrow_exception(error);
}

/// The addresses, or the refusal's code.
std::string told(const Result<Addresses>& found) {
  if (!found) return found.error().code;
  std::string all;
  for (const auto& each : *found) all += each.address().to_string() + " " + std::to_string(each.port()) + " ";
  return all;
}

std::string looked_up(const std::string& host, NameLookup::Ask ask) {
  asio::io_context loop;
  NameLookup names(loop.get_executor(), std::move(ask));
  Found found;
  asio::co_spawn(loop, find(names, host, found), rethrow);
  loop.run_for(std::chrono::seconds(10));
  return found ? told(*found) : "none";
}

Named nobody(const std::string&, const std::string&) {
  return {{}, "not found"};
}

TEST(NameLookupTest, ANumberNeedsNoAsking) {
  const auto never = [](const std::string& host, const std::string&) {
    ADD_FAILURE() << "asked for " << host;
    return Named{};
  };
  EXPECT_EQ(looked_up("127.0.0.1", never), "127.0.0.1 4001 ");
  EXPECT_EQ(looked_up("::1", never), "::1 4001 ");
}

TEST(NameLookupTest, ANameHasAddressesOrIsUnknown) {
  EXPECT_NE(looked_up("localhost", ask_system).find(" 4001 "), std::string::npos);
  EXPECT_EQ(looked_up("server.shop", nobody), "unknown_host");
}

/// A name server that does not answer, until the test lets it.
struct Stuck {
  std::promise<void> let_go;
  std::shared_future<void> go{let_go.get_future()};
  std::promise<void> done;

  NameLookup::Ask ask() {
    return [this](const std::string&, const std::string&) {
      go.wait();
      done.set_value_at_thread_exit();
      return Named{{asio::ip::tcp::endpoint(asio::ip::address_v4::loopback(), 4001)}, ""};
    };
  }
  void end() {
    let_go.set_value();
    done.get_future().wait();
  }
};

TEST(NameLookupTest, NeitherTheLoopNorItsEndWaitsForAnAnswer) {
  Stuck server;
  const auto begun = Steady::now();
  {
    asio::io_context loop;
    NameLookup names(loop.get_executor(), server.ask());
    Found found;
    asio::co_spawn(loop, find(names, "server.shop", found), rethrow);
    loop.run_for(milliseconds(50));
    EXPECT_FALSE(found);
  }
  EXPECT_LT(Steady::now() - begun, std::chrono::seconds(5));
  server.end();  // nobody is there any more, and nothing happens
}

TEST(NameLookupTest, ClosingEndsTheWait) {
  Stuck server;
  asio::io_context loop;
  NameLookup names(loop.get_executor(), server.ask());
  Found found;
  asio::co_spawn(loop, find(names, "server.shop", found), rethrow);
  loop.run_for(milliseconds(50));
  names.close();
  loop.run_for(std::chrono::seconds(5));
  ASSERT_TRUE(found);
  EXPECT_EQ(told(*found), "unknown_host");
  server.end();
}

}  // namespace
}  // namespace tenth::drivers
