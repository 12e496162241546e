#pragma once

#include <functional>

namespace tenth {

/// True once nobody waits for the answer of a call any more. What takes its time asks it now and then.
using HungUp = std::function<bool()>;

}  // namespace tenth
