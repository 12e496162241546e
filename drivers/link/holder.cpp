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

/// Who has each device, so far.
using Devices = std::map<fs::path, std::optional<Holder>>;

std::string program_of(const fs::path& directory) {
  std::string name = read_all(directory / "comm");
  if (name.ends_with('\n')) name.pop_back();
  return name;
}

/// The links are read, not followed: a file behind one of them may hang.
void look_at(const fs::path& directory, pid_t process, Devices& devices) {
  for (const fs::path& descriptor : entries(directory / "fd")) {
    std::error_code error;
    const auto device = devices.find(fs::read_symlink(descriptor, error));
    if (error || device == devices.end()) continue;
    std::optional<Holder>& holder = device->second;
    const bool locks = read_all(directory / "fdinfo" / descriptor.filename()).find("FLOCK") != std::string::npos;
    if (locks || (!holder && process != getpid())) holder = Holder{process, program_of(directory), locks};
  }
}

}  // namespace

std::map<std::string, Holder> find_holders(const std::vector<std::string>& paths) {
  Devices devices;
  std::map<std::string, fs::path> device_of;
  for (const std::string& path : paths) {
    std::error_code error;
    const fs::path device = fs::canonical(path, error);
    if (error) continue;
    devices.emplace(device, std::nullopt);
    device_of.emplace(path, device);
  }
  for (const fs::path& directory : entries("/proc"))
    if (const auto process = process_of(directory)) look_at(directory, *process, devices);
  std::map<std::string, Holder> holders;
  for (const auto& [path, device] : device_of)
    if (const auto& holder = devices.at(device)) holders.emplace(path, *holder);
  return holders;
}

std::optional<Holder> find_holder(const std::string& path) {
  const auto holders = find_holders({path});
  return holders.empty() ? std::nullopt : std::optional(holders.begin()->second);
}

}  // namespace tenth::drivers
