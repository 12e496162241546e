#include <unistd.h>

#include <cstdlib>
#include <iostream>
#include <string>
#include <vector>

#include "cli/run.hpp"

namespace {

std::string variable(const std::string& name) {
  const char* value = std::getenv(name.c_str());  // one thread
  return value == nullptr ? "" : value;
}

}  // namespace

int main(int count, char** words) {
  std::ios::sync_with_stdio(false);
  tenth::cli::World world{
      std::cin, std::cout, std::cerr, isatty(STDIN_FILENO) == 1, isatty(STDOUT_FILENO) == 1, isatty(STDERR_FILENO) == 1,
      variable};
  return tenth::cli::run({words + 1, words + count}, world);
}
