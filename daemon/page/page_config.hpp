#pragma once

#include <boost/asio/ip/tcp.hpp>
#include <optional>
#include <string>
#include <vector>

namespace tenth {

/// The bench page as `http` and `[page]` of the configuration set it.
struct PageConfig {
  std::optional<boost::asio::ip::tcp::endpoint> at;  ///< empty: off
  std::vector<std::string> hosts;                    ///< names it is asked for by, beside loopback and `localhost`
  std::string token_file;                            ///< empty: a token is made at each start
};

}  // namespace tenth
