#pragma once

#include <boost/beast/http/message.hpp>
#include <boost/beast/http/string_body.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/page/token.hpp"

namespace tenth {

using PageRequest = boost::beast::http::request<boost::beast::http::string_body>;

/// A request that is sent away: the status of the answer, and one line for a person.
struct SentAway {
  boost::beast::http::status status;
  std::string why;
};

/// Who may ask, and who may act. A page of another site can make a browser ask here, under a name of its own that it
/// lets point here; so the Host that was asked for has to be ours, and an Origin, where there is one, the same.
class Gate {
 public:
  Gate(Token token, std::vector<std::string> hosts) : token_(std::move(token)), hosts_(std::move(hosts)) {}

  const Token& token() const { return token_; }
  /// Nothing where the request may be answered: GET and HEAD from our own page or from none, anything else with the
  /// token too.
  std::optional<SentAway> send_away(const PageRequest& request) const;
  /// Loopback, `localhost`, or one of `hosts`; with or without a port.
  bool is_ours(std::string_view host) const;

 private:
  bool has_token(const PageRequest& request) const;

  Token token_;
  std::vector<std::string> hosts_;
};

}  // namespace tenth
