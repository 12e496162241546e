#pragma once

#include <chrono>
#include <filesystem>
#include <fstream>
#include <functional>
#include <string>
#include <thread>
#include <vector>

#include "tests/cli/program.hpp"
#include "tests/support/folder.hpp"

namespace tenth::cli {

/// A folder of programs that note what they were asked to do, instead of doing it.
class FakePrograms {
 public:
  /// A shell script of this name; its folder is in `$folder`.
  std::string make(const std::string& name, const std::string& script) const {
    const std::filesystem::path path = folder_ / name;
    std::ofstream(path) << "#!/bin/sh\nfolder='" << folder_.path().string() << "'\n" << script << "\n";
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
  std::string folder() const { return folder_.path(); }

 private:
  Folder folder_;
};

/// Whether it holds within 20 s.
inline bool until(const std::function<bool()>& holds) {
  const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(20);
  while (!holds() && std::chrono::steady_clock::now() < end) std::this_thread::sleep_for(std::chrono::milliseconds(5));
  return holds();
}

}  // namespace tenth::cli
