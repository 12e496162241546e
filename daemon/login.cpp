#include "daemon/login.hpp"

#include <pwd.h>

#include <array>

namespace tenth {

std::string login_of(uid_t uid) {
  std::array<char, 4096> buffer{};
  passwd entry{};
  passwd* found = nullptr;
  if (getpwuid_r(uid, &entry, buffer.data(), buffer.size(), &found) != 0 || found == nullptr)
    return std::to_string(uid);
  return entry.pw_name;
}

}  // namespace tenth
