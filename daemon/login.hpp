#pragma once

#include <sys/types.h>

#include <string>

namespace tenth {

/// The login name of a user id, or the number where the system knows no name.
std::string login_of(uid_t uid);

}  // namespace tenth
