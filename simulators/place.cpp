#include "simulators/place.hpp"

namespace tenth::simulators {

namespace fs = std::filesystem;

Result<void> make_room(const fs::path& path) {
  std::error_code error;
  if (path.has_parent_path()) fs::create_directories(path.parent_path(), error);
  if (error) return tl::unexpected(path.parent_path().string() + ": " + error.message());
  const bool dead = fs::is_symlink(path, error) && !fs::exists(path, error);
  if (dead) fs::remove(path, error);
  if (!fs::exists(fs::symlink_status(path, error))) return {};
  return tl::unexpected(path.string() + " is there already: end its simulator, or name another path in the scenario");
}

}  // namespace tenth::simulators
