#include "drivers/link/first_line.hpp"

#include <fstream>

namespace tenth::drivers {

std::string first_line(const std::filesystem::path& file) {
  std::ifstream stream(file);
  std::string line;
  std::getline(stream, line);
  return line;
}

}  // namespace tenth::drivers
