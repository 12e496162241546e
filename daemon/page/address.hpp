#pragma once

#include <boost/asio/ip/tcp.hpp>
#include <string>

#include "rules/result.hpp"

namespace tenth {

/// Where the bench page is served: "127.0.0.1:8642", "[::1]:8642", "localhost:8642". Port 0 takes one that is free.
/// Refused as wrong words (2): a name other than localhost, which could mean another address tomorrow.
Result<boost::asio::ip::tcp::endpoint> page_endpoint(const std::string& text);

/// As it stands in an address of the web: "[::1]:8642".
std::string authority(const boost::asio::ip::tcp::endpoint& endpoint);

}  // namespace tenth
