#include "cli/ending.hpp"

#include <unistd.h>

#include <csignal>

namespace tenth::cli {
namespace {

volatile std::sig_atomic_t asked = 0;

void note(int) {
  asked = 1;
}

void end_quietly(int) {
  _exit(0);
}

}  // namespace

void end_on(std::initializer_list<int> signals) {
  for (const int signal : signals) std::signal(signal, note);
}

bool ending() {
  return asked != 0;
}

void end_at_once_on(std::initializer_list<int> signals) {
  for (const int signal : signals) std::signal(signal, end_quietly);
}

}  // namespace tenth::cli
