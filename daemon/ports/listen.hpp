#pragma once

#include <boost/asio/awaitable.hpp>

#include "daemon/desk.hpp"
#include "daemon/hung_up.hpp"

namespace tenth {

/// `gauge.find`: what ports there are. Opens none.
Result<Json> gauge_find(const View&, const Json& params);
/// `gauge.profiles`: the profiles that Tenth ships, whole.
Result<Json> gauge_profiles(const View&, const Json& params);
/// `gauge.listen`: opens a port that no gauge of ours has, writes nothing to it, stores nothing, and says what the
/// gauge on it may speak. The port is given back at the end, or soon after the caller has hung up.
boost::asio::awaitable<Result<Json>> gauge_listen(Desk& desk, Json params, HungUp hung_up);

}  // namespace tenth
