#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "drivers/catalog.hpp"
#include "drivers/decoder.hpp"

namespace tenth::drivers {

/// What crossed the wire at one time: bytes from the gauge that arrived together, or a question to it.
struct Crossing {
  std::int64_t at_ns = 0;
  bool asked = false;
  std::vector<Received> bytes;
};

/// What crossed a wire (format: `tests/recordings/README.md`).
struct Recording {
  Profile profile;
  std::optional<Unit> unit;
  Wire wire = Wire::serial;
  bool waited = false;
  std::vector<Crossing> crossings;
};

Recording read_recording(const std::filesystem::path& path);

/// Bytes as they come from a good wire.
std::vector<Received> sound(std::string_view bytes);
/// The other way round: without the marks of damage.
std::string text_of(const std::vector<Received>& bytes);

/// The lines of an expectation, without remarks.
std::vector<std::string> read_expected(const std::filesystem::path& path);

/// An event as a line of an expectation has it.
std::string line_of(const Event& event);

/// Every recording of a folder of formats, in order of name.
std::vector<std::filesystem::path> recordings_of(const std::string& folder);

}  // namespace tenth::drivers
