#pragma once

#include <filesystem>

namespace tenth {

/// Where programs meet when nothing says otherwise: for a user by XDG, for the system (uid 0) by FHS.
std::filesystem::path default_socket();  ///< $XDG_RUNTIME_DIR/tenth/tenthd.sock, else /run/tenth/tenthd.sock
std::filesystem::path default_state();   ///< $XDG_STATE_HOME/tenth or ~/.local/state/tenth; system: /var/lib/tenth
std::filesystem::path
default_config();  ///< $XDG_CONFIG_HOME/tenth/tenthd.toml or ~/.config/…; system: /etc/tenth/tenthd.toml

}  // namespace tenth
