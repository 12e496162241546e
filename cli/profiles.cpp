#include "cli/profiles.hpp"

#include <algorithm>
#include <filesystem>
#include <ostream>

#include "cli/files.hpp"

namespace tenth::cli {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostBytes = 1024 * 1024;

std::vector<fs::path> folders(const World& world) {
  std::vector<fs::path> all;
  if (const auto config = world.variable("XDG_CONFIG_HOME"); config.starts_with('/'))
    all.push_back(fs::path(config) / "tenth/profiles");
  else if (const auto home = world.variable("HOME"); !home.empty())
    all.push_back(fs::path(home) / ".config/tenth/profiles");
  all.emplace_back("/etc/tenth/profiles");
  return all;
}

bool is_path(const std::string& profile) {
  return profile.find('/') != std::string::npos || profile.ends_with(".toml");
}

}  // namespace

std::vector<ProfileFile> profile_files(const World& world) {
  std::vector<ProfileFile> files;
  for (const fs::path& folder : folders(world)) {
    std::vector<ProfileFile> here;
    std::error_code error;
    for (const auto& entry : fs::directory_iterator(folder, error))
      if (entry.path().extension() == ".toml") here.push_back({entry.path().stem(), entry.path(), {}});
    std::sort(here.begin(), here.end(), [](const ProfileFile& a, const ProfileFile& b) { return a.name < b.name; });
    for (ProfileFile& each : here)
      if (std::none_of(files.begin(), files.end(), [&](const ProfileFile& other) { return other.name == each.name; }))
        files.push_back(std::move(each));
  }
  return files;
}

std::vector<ProfileFile> readable_profiles(World& world) {
  std::vector<ProfileFile> files = profile_files(world);
  std::erase_if(files, [&world](ProfileFile& file) {
    auto text = read_text(file.path, kMostBytes);
    if (text)
      file.text = std::move(*text);
    else
      world.err << "tenth: left out: " << text.error().message << '\n';
    return !text;
  });
  return files;
}

Result<std::optional<std::string>> profile_text(const World& world, const std::string& profile) {
  std::string path = profile;
  if (!is_path(profile)) {
    const auto files = profile_files(world);
    const auto found =
        std::find_if(files.begin(), files.end(), [&](const ProfileFile& each) { return each.name == profile; });
    if (found == files.end()) return std::nullopt;
    path = found->path;
  }
  TENTH_TRY(std::string text, read_text(path, kMostBytes));
  return text;
}

}  // namespace tenth::cli
