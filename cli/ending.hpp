#pragma once

#include <initializer_list>

namespace tenth::cli {

/// From now on these signals do not kill, but make `ending` true.
void end_on(std::initializer_list<int> signals);
bool ending();

/// These signals end the program with 0, wherever it stands: nothing is left to do.
void end_at_once_on(std::initializer_list<int> signals);

}  // namespace tenth::cli
