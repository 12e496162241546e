#include "tests/drivers/recording.hpp"

#include <algorithm>
#include <fstream>
#include <iomanip>
#include <sstream>
#include <stdexcept>

#include "tests/drivers/shipped.hpp"

namespace tenth::drivers {
namespace {

std::uint8_t hex_at(const std::string& text, std::size_t at) {
  return static_cast<std::uint8_t>(std::stoi(text.substr(at, 2), nullptr, 16));
}

/// `\xHH` is a byte, `\!HH` a damaged one; anything else stands for itself.
std::vector<Received> bytes_of(const std::string& text) {
  std::vector<Received> bytes;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\\') {
      bytes.push_back({static_cast<std::uint8_t>(text[i]), false});
    } else {
      bytes.push_back({hex_at(text, i + 2), text.at(i + 1) == '!'});
      i += 3;
    }
  }
  return bytes;
}

std::string escaped(const std::string& bytes) {
  std::ostringstream out;
  for (const char c : bytes) {
    if (c >= 0x20 && c <= 0x7E && c != '\\') {
      out << c;
    } else {
      out << "\\x" << std::uppercase << std::hex << std::setw(2) << std::setfill('0')
          << static_cast<int>(static_cast<unsigned char>(c));
    }
  }
  return out.str();
}

/// The number of milliseconds, a blank, the bytes.
Crossing crossing_of(const std::string& line, bool asked) {
  const auto blank = line.find(' ');
  return {std::stoll(line.substr(0, blank)) * 1'000'000, asked, bytes_of(line.substr(blank + 1))};
}

std::string text_of_file(const std::filesystem::path& path) {
  std::ifstream file(path);
  if (!file) throw std::runtime_error("no file " + path.string());
  return {std::istreambuf_iterator<char>(file), {}};
}

/// What stands behind the words; empty where the line begins otherwise.
std::string behind(const std::string& words, const std::string& line) {
  return line.starts_with(words) ? line.substr(words.size()) : "";
}

/// A profile of its own beside the recording, else the one it names, else the one that its folder is named after.
Profile profile_of(const std::filesystem::path& path, const std::string& named) {
  const auto own = std::filesystem::path(path).replace_extension(".toml");
  if (std::filesystem::exists(own)) return parse_profile(text_of_file(own), own.string()).value();
  return shipped(named.empty() ? path.parent_path().filename().string() : named);
}

}  // namespace

Recording read_recording(const std::filesystem::path& path) {
  Recording recording;
  std::string profile;
  std::istringstream lines(text_of_file(path));
  for (std::string line; std::getline(lines, line);) {
    if (line == "# unit: mm") recording.unit = Unit::mm;
    if (line == "# unit: in") recording.unit = Unit::in;
    if (line == "# waited: yes") recording.waited = true;
    if (line == "# wire: network") recording.wire = Wire::network;
    if (const auto name = behind("# profile: ", line); !name.empty()) profile = name;
    if (const auto asked = behind("# asked: ", line); !asked.empty())
      recording.crossings.push_back(crossing_of(asked, true));
    if (!line.empty() && !line.starts_with('#')) recording.crossings.push_back(crossing_of(line, false));
  }
  recording.profile = profile_of(path, profile);
  return recording;
}

std::string text_of(const std::vector<Received>& bytes) {
  std::string text;
  for (const Received received : bytes) text.push_back(static_cast<char>(received.byte));
  return text;
}

std::vector<Received> sound(std::string_view bytes) {
  std::vector<Received> received;
  for (const char c : bytes) received.push_back({static_cast<std::uint8_t>(c), false});
  return received;
}

std::vector<std::string> read_expected(const std::filesystem::path& path) {
  std::ifstream file(path);
  if (!file) throw std::runtime_error("no expectation " + path.string());
  std::vector<std::string> lines;
  for (std::string line; std::getline(file, line);) {
    if (!line.empty() && !line.starts_with('#')) lines.push_back(line);
  }
  return lines;
}

std::string line_of(const Event& event) {
  std::ostringstream line;
  if (const auto* fault = std::get_if<Fault>(&event)) {
    line << "fault " << name(fault->why) << " " << fault->bytes << " [" << escaped(fault->raw) << "]";
  } else {
    const auto& read = std::get<Measurement>(event);
    line << "read " << read.value.pm() << " pm " << name(read.unit) << (read.unit_in_frame ? "" : " of the gauge")
         << " [" << escaped(read.text) << "] [" << escaped(read.raw) << "]"
         << (read.channel.empty() ? "" : " channel " + read.channel);
  }
  return line.str();
}

std::vector<std::filesystem::path> recordings_of(const std::string& folder) {
  std::vector<std::filesystem::path> paths;
  for (const auto& entry : std::filesystem::directory_iterator(TENTH_SOURCE_DIR "/tests/recordings/" + folder)) {
    if (entry.path().extension() == ".rec") paths.push_back(entry.path());
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

}  // namespace tenth::drivers
