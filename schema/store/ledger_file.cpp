#include "schema/store/ledger_file.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <system_error>

namespace tenth {
namespace {

namespace fs = std::filesystem;

fs::path log_of(const fs::path& file) {
  return file.string() + "-wal";
}
fs::path index_of(const fs::path& file) {
  return file.string() + "-shm";
}

/// Nobody's to write, even where the caller is root, or not the caller's.
bool is_read_only(const fs::path& path) {
  using fs::perms;
  const perms any_write = perms::owner_write | perms::group_write | perms::others_write;
  std::error_code error;
  return (fs::status(path, error).permissions() & any_write) == perms::none || ::access(path.c_str(), W_OK) != 0;
}

}  // namespace

tl::unexpected<Refusal> unreadable(const fs::path& file, const std::string& why) {
  return refuse("ledger_unreadable", file.string() + ": " + why, "restore it from a copy; keep the damaged file");
}

tl::unexpected<Refusal> read_only(const fs::path& path) {
  return refuse("ledger_read_only", path.string() + ": it is read-only",
                "make the ledger and its folder writable for the user that runs tenthd");
}

/// SQLite would wait for a pipe, and take a few bytes of anything for an empty database.
std::optional<Refusal> read_refusal(const fs::path& file) {
  constexpr std::uintmax_t kHeaderBytes = 100;  // of an SQLite database
  std::error_code error;
  if (!fs::is_regular_file(file, error)) return unreadable(file, "it is no file").value();
  const std::uintmax_t bytes = fs::file_size(file, error);
  if (bytes > 0 && bytes < kHeaderBytes) return unreadable(file, "it is too short for a ledger").value();
  return std::nullopt;
}

std::optional<Refusal> write_refusal(const fs::path& file) {
  std::error_code error;
  const fs::path folder = file.parent_path();
  if (!fs::is_directory(folder, error)) return unreadable(file, "its folder does not exist").value();
  if (is_read_only(folder)) return read_only(folder).value();
  if (!fs::exists(file, error)) return std::nullopt;
  if (is_read_only(file)) return read_only(file).value();
  return read_refusal(file);
}

void own_alone(const fs::path& file) {
  const int made = ::open(file.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (made >= 0) ::close(made);
  std::error_code not_ours;  // then it is the owner's to say
  for (const fs::path& path : {file, log_of(file), index_of(file)}) {
    fs::permissions(path, fs::perms::owner_read | fs::perms::owner_write, not_ours);
  }
}

bool stands_alone(const fs::path& file) {
  std::error_code absent;
  const std::uintmax_t bytes = fs::file_size(log_of(file), absent);
  return absent || bytes == 0;
}

}  // namespace tenth
