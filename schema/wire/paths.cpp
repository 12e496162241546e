#include "schema/wire/paths.hpp"

#include <unistd.h>

#include <cstdlib>
#include <string>

namespace tenth {
namespace {

namespace fs = std::filesystem;

std::string variable(const char* name) {
  const char* const value = std::getenv(name);
  return value == nullptr ? "" : value;
}

/// The user's folder named by an XDG variable, else below their home; empty for the system.
fs::path user_folder(const char* xdg, const char* below_home) {
  if (const std::string given = variable(xdg); !given.empty()) return given;
  const std::string home = variable("HOME");
  if (geteuid() == 0 || home.empty()) return {};
  return fs::path(home) / below_home;
}

}  // namespace

fs::path default_socket() {
  const std::string runtime = variable("XDG_RUNTIME_DIR");
  return (runtime.empty() ? fs::path("/run") : fs::path(runtime)) / "tenth" / "tenthd.sock";
}

fs::path default_state() {
  const fs::path user = user_folder("XDG_STATE_HOME", ".local/state");
  return (user.empty() ? fs::path("/var/lib") : user) / "tenth";
}

fs::path default_config() {
  const fs::path user = user_folder("XDG_CONFIG_HOME", ".config");
  return (user.empty() ? fs::path("/etc") : user) / "tenth" / "tenthd.toml";
}

}  // namespace tenth
