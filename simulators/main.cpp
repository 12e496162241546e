#include <iostream>
#include <string_view>
#include <vector>

#include "simulators/run.hpp"

int main(int argc, char** argv) {
  const std::vector<std::string_view> words(argv + (argc > 0 ? 1 : 0), argv + argc);
  return tenth::simulators::run(words, std::cout, std::cerr);
}
