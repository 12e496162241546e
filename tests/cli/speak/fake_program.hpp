#pragma once

#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <functional>
#include <string>
#include <thread>
#include <vector>

#include "tests/cli/program.hpp"

namespace tenth::cli {

/// A folder of programs that note what they were asked to do, instead of doing it.
class FakePrograms {
 public:
  FakePrograms() {
    std::string form = "/tmp/tenth-speak-XXXXXX";
    folder_ = mkdtemp(form.data());
  }
  ~FakePrograms() { std::filesystem::remove_all(folder_); }
  FakePrograms(const FakePrograms&) = delete;
  FakePrograms& operator=(const FakePrograms&) = delete;

  /// A shell script of this name; its folder is in `$folder`.
  std::string make(const std::string& name, const std::string& script) const {
    const std::filesystem::path path = folder_ / name;
    std::ofstream(path) << "#!/bin/sh\nfolder='" << folder_.string() << "'\n" << script << "\n";
    std::filesystem::permissions(path, std::filesystem::perms::owner_all);
    return path;
  }
  /// One that notes its words in a line.
  std::string noting(const std::string& name) const {
    return make(name, "echo \"$*\" >> \"$folder/" + name + ".said\"");
  }

  std::string file(const std::string& name) const {
    std::ifstream stream(folder_ / name, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
  }
  std::vector<std::string> said(const std::string& name) const { return lines_of(file(name + ".said")); }
  std::string folder() const { return folder_; }

 private:
  std::filesystem::path folder_;
};

/// Whether it holds within 20 s.
inline bool until(const std::function<bool()>& holds) {
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(20);
  while (!holds() && std::chrono::steady_clock::now() < end) std::this_thread::sleep_for(std::chrono::milliseconds(5));
  return holds();
}

}  // namespace tenth::cli
