#include "tests/drivers/other_program.hpp"

#include <fcntl.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <stdexcept>

namespace tenth::test {

OtherProgram::OtherProgram(const std::function<void()>& act) {
  std::array<int, 2> ready{};
  if (pipe2(ready.data(), O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
  process_ = fork();
  if (process_ == 0) {
    prctl(PR_SET_PDEATHSIG, SIGKILL);
    prctl(PR_SET_NAME, kOtherName);
    act();
    const char done = 1;
    if (write(ready[1], &done, 1) != 1) _exit(1);
    while (true) pause();
  }
  close(ready[1]);
  char done = 0;
  const bool acted = read(ready[0], &done, 1) == 1;
  close(ready[0]);
  if (process_ < 0 || !acted) throw std::runtime_error("the other program did not start");
}

void OtherProgram::kill() {
  if (process_ < 0) return;
  ::kill(process_, SIGKILL);
  waitpid(process_, nullptr, 0);
  process_ = -1;
}

}  // namespace tenth::test
