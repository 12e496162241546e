#pragma once

#include <cstdlib>
#include <filesystem>
#include <stdexcept>
#include <string>

namespace tenth {

/// A folder of one test's own, as tests run side by side; gone with all that lies in it.
class Folder {
 public:
  explicit Folder(const std::filesystem::path& in = std::filesystem::temp_directory_path()) {
    std::string name = in / "tenth-XXXXXX";
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder can be made in " + in.string());
    path_ = name;
  }
  ~Folder() {
    std::filesystem::permissions(path_, std::filesystem::perms::owner_all);
    std::filesystem::remove_all(path_);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  const std::filesystem::path& path() const { return path_; }
  std::filesystem::path operator/(const std::filesystem::path& name) const { return path_ / name; }

 private:
  std::filesystem::path path_;
};

}  // namespace tenth
