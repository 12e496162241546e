#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "drivers/decoder.hpp"

namespace tenth::drivers {

/// Bytes that arrived together.
struct Arrival {
  std::int64_t at_ns = 0;
  std::vector<Received> bytes;
};

/// What crossed a wire (format: `tests/recordings/README.md`).
struct Recording {
  std::optional<Unit> unit;
  bool waited = false;
  std::vector<Arrival> arrivals;
};

Recording read_recording(const std::filesystem::path& path);
std::vector<Received> all_bytes(const Recording& recording);

/// Bytes as they come from a good wire.
std::vector<Received> sound(std::string_view bytes);

/// The lines of an expectation, without remarks.
std::vector<std::string> read_expected(const std::filesystem::path& path);

/// An event as a line of an expectation has it.
std::string line_of(const Event& event);

/// Every recording of a format, in order of name.
std::vector<std::filesystem::path> recordings_of(const std::string& format);

}  // namespace tenth::drivers
