#include "tests/end_to_end/faked_clock.hpp"

#include <cstdlib>

namespace acceptance {

void FakedClock::SetUp() {
  later(std::chrono::seconds(0));
  write("tenthd.toml", config());
  setenv("LD_PRELOAD", "/usr/$LIB/faketime/libfaketime.so.1", 1);
  setenv("FAKETIME_TIMESTAMP_FILE", (home_ / "offset").c_str(), 1);
  setenv("FAKETIME_NO_CACHE", "1", 1);
  setenv("ASAN_OPTIONS", "verify_asan_link_order=0", 0);  // libfaketime comes before the sanitizer's runtime
  daemon_.start();
  for (const char* name : {"LD_PRELOAD", "FAKETIME_TIMESTAMP_FILE", "FAKETIME_NO_CACHE"}) unsetenv(name);
  if (!HasFatalFailure()) restart_watch();
}

void FakedClock::later(std::chrono::seconds offset) const {
  set("+" + std::to_string(offset.count()));
}

void FakedClock::faster(int times) const {
  set("+0 x" + std::to_string(times));
}

void FakedClock::set(const std::string& offset) const {
  std::filesystem::rename(write("offset.new", offset + "\n"), home_ / "offset");
}

}  // namespace acceptance
