#pragma once

#include <boost/asio/any_io_executor.hpp>
#include <memory>
#include <string>

#include "drivers/link/link.hpp"
#include "drivers/link/name_lookup.hpp"
#include "rules/result.hpp"
#include "schema/profile/profile.hpp"

namespace tenth::drivers {

/// Opens any port but `hand`, by the name that `gauge add` took, for us alone. What is found by identity is found anew
/// each time, under whatever name it has now. Refused with code `absent` (not there now), `ambiguous` (two alike),
/// `not_a_port`, `in_use` (names the holder: program and process id), `permission`, `settings`, `port`, `profile`.
/// The link must outlive its coroutines.
Result<std::unique_ptr<Link>> open_port(const boost::asio::any_io_executor& executor, const std::string& port,
                                        const Profile& profile);

/// A device path (serial line, by-id link or pseudo-terminal): flock and TIOCEXCL, non-blocking, VMIN 1, PARMRK, the
/// line settings read back and compared (not on a pseudo-terminal). Flushes nothing, writes nothing.
Result<std::unique_ptr<Link>> open_serial(const boost::asio::any_io_executor& executor, const std::string& path,
                                          const LineSettings& line);

/// A device server on the network. Open at once; `connect` finds the other side.
Result<std::unique_ptr<Link>> open_tcp(const boost::asio::any_io_executor& executor, const std::string& host,
                                       const std::string& service, NameLookup::Ask ask = ask_system);

/// A gauge or pedal that types, taken for us alone so that nothing lands in the window with the focus. Gives the
/// characters of its keys; of a pedal a `d` for each key pressed and a `u` for each let go. `name` is its serial
/// number, else its name.
Result<std::unique_ptr<Link>> open_keys(const boost::asio::any_io_executor& executor, const std::string& name,
                                        const Profile& profile);

}  // namespace tenth::drivers
