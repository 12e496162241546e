#include "schema/store/writer_lock.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <system_error>
#include <utility>

namespace tenth {

Result<WriterLock> WriterLock::take(const std::filesystem::path& ledger_file) {
  const std::string name = ledger_file.string() + "-lock";
  const int descriptor = ::open(name.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0600);
  if (descriptor < 0) {
    return refuse("ledger_read_only", name + ": " + std::generic_category().message(errno),
                  "make the file and its folder writable for the user that runs tenthd");
  }
  WriterLock lock(descriptor);
  if (::flock(descriptor, LOCK_EX | LOCK_NB) != 0) {
    return refuse("ledger_locked", ledger_file.string() + ": another program is writing this ledger",
                  "stop the other tenthd, or give this one its own --state");
  }
  return lock;
}

WriterLock::WriterLock(WriterLock&& other) noexcept : descriptor_(std::exchange(other.descriptor_, -1)) {}

WriterLock::~WriterLock() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

}  // namespace tenth
