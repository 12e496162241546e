#include "drivers/link/holder.hpp"

#include <unistd.h>

#include <charconv>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

namespace tenth::drivers {
namespace {

namespace fs = std::filesystem;

/// Empty where the directory has gone or is not ours to see: processes come and go.
std::vector<fs::path> entries(const fs::path& directory) {
  std::vector<fs::path> paths;
  std::error_code error;
  for (fs::directory_iterator entry(directory, error), end; entry != end; entry.increment(error)) {
    paths.push_back(entry->path());
  }
  return paths;
}

std::string read_all(const fs::path& path) {
  std::ifstream file(path);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::optional<pid_t> process_of(const fs::path& directory) {
  const std::string name = directory.filename();
  pid_t process = 0;
  const auto [end, error] = std::from_chars(name.data(), name.data() + name.size(), process);
  if (error != std::errc() || end != name.data() + name.size()) return std::nullopt;
  return process;
}

/// The links are read, not followed: a file behind one of them may hang.
std::optional<Holder> as_holder(const fs::path& directory, pid_t process, const fs::path& device) {
  std::optional<Holder> holder;
  for (const fs::path& descriptor : entries(directory / "fd")) {
    std::error_code error;
    if (fs::read_symlink(descriptor, error) != device) continue;
    if (!holder) holder = Holder{process, read_all(directory / "comm"), false};
    if (read_all(directory / "fdinfo" / descriptor.filename()).find("FLOCK") != std::string::npos) holder->locks = true;
  }
  if (holder && holder->program.ends_with('\n')) holder->program.pop_back();
  return holder;
}

}  // namespace

std::optional<Holder> find_holder(const std::string& path) {
  std::error_code error;
  const fs::path device = fs::canonical(path, error);
  if (error) return std::nullopt;
  std::optional<Holder> found;
  for (const fs::path& directory : entries("/proc")) {
    const auto process = process_of(directory);
    if (!process) continue;
    auto holder = as_holder(directory, *process, device);
    if (!holder) continue;
    if (holder->locks) return holder;
    if (!found && *process != getpid()) found = std::move(holder);
  }
  return found;
}

}  // namespace tenth::drivers
