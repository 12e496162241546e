#include "cli/files.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <fstream>
#include <system_error>

#include "rules/nearest.hpp"

namespace tenth::cli {
namespace {

tl::unexpected<Refusal> failed(const std::string& what, const std::string& path) {
  const auto why = std::generic_category().message(errno);
  return refuse("file", "cannot " + what + " " + quoted(path) + ": " + why, "look at the path and its permissions");
}

/// An open descriptor that is closed at the end of its scope.
class Descriptor {
 public:
  Descriptor(const std::string& path, int flags) : value_(open(path.c_str(), flags | O_CLOEXEC, 0666)) {}
  ~Descriptor() {
    if (value_ >= 0) close(value_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int value() const { return value_; }

 private:
  int value_;
};

bool write_all(int file, std::string_view text) {
  while (!text.empty()) {
    const auto count = write(file, text.data(), text.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return false;
    text.remove_prefix(static_cast<std::size_t>(count));
  }
  return true;
}

bool write_new(const std::string& path, std::string_view text) {
  const Descriptor file(path, O_WRONLY | O_CREAT | O_EXCL);
  return file.value() >= 0 && write_all(file.value(), text) && fsync(file.value()) == 0;
}

/// A device or a pipe is written into, never replaced; most cannot be synced.
Result<bool> write_into(const std::string& path, std::string_view text) {
  const Descriptor file(path, O_WRONLY);
  if (file.value() < 0 || !write_all(file.value(), text)) return failed("write", path);
  return true;
}

}  // namespace

Result<std::string> read_text(const std::string& path, std::size_t most) {
  const Descriptor file(path, O_RDONLY);
  if (file.value() < 0) return failed("read", path);
  std::string text;
  std::string block(65536, '\0');
  while (true) {
    const auto count = read(file.value(), block.data(), block.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return failed("read", path);
    if (count == 0) return text;
    text.append(block, 0, static_cast<std::size_t>(count));
    if (text.size() > most)
      return refuse("file", quoted(path) + " is longer than " + std::to_string(most) + " bytes",
                    "see that it is the right file");
  }
}

Result<bool> write_text(const std::string& named, std::string_view text) {
  std::error_code ignored;
  const auto there = std::filesystem::status(named, ignored);
  const std::string path = std::filesystem::exists(there) ? std::filesystem::canonical(named, ignored).string() : named;
  const std::filesystem::path target(path);
  if (std::filesystem::exists(there) && !std::filesystem::is_regular_file(there)) return write_into(path, text);
  const auto folder = target.has_parent_path() ? target.parent_path() : std::filesystem::path(".");
  const auto beside = (folder / ("." + target.filename().string() + "." + std::to_string(getpid()))).string();
  const bool kept = std::filesystem::exists(there);  // who may read it stays as it was
  const bool written = write_new(beside, text) &&
                       (!kept || chmod(beside.c_str(), static_cast<mode_t>(there.permissions()) & 07777) == 0) &&
                       rename(beside.c_str(), path.c_str()) == 0;
  if (!written) {
    const int error = errno;
    if (error != EEXIST) unlink(beside.c_str());
    errno = error;
    return failed("write", path);
  }
  const Descriptor directory(folder.string(), O_RDONLY | O_DIRECTORY);
  if (directory.value() >= 0) fsync(directory.value());
  return true;
}

}  // namespace tenth::cli
