#pragma once

namespace tenth::drivers {

/// Any whole number of baud, by termios2. False where the port refuses.
bool set_baud(int descriptor, int baud);
/// The speed that the port has really taken, both ways; 0 where it cannot be told or the two differ.
int baud_of(int descriptor);

}  // namespace tenth::drivers
