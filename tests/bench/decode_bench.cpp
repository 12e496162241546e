// Decoding beside the least that can be done with the same bytes: one `memchr` pass over them for the ends of frames.
#include <cstring>

#include "drivers/catalog.hpp"
#include "schema/profile/profile_file.hpp"
#include "tests/bench/samples.hpp"

namespace tenth::bench {
namespace {

using drivers::Received;

constexpr std::size_t kFrames = 1000;

Profile shipped(const std::string& format) {
  return parse_profile(drivers::find_shipped(format)->text, format).value();
}

/// A frame of 83.01 mm or so, as the gauge of a format sends it; of modbus an answer with its checksum.
std::string frame_of(const std::string& format) {
  if (format == "bcd13") return "FFFF008301040\r";
  if (format == "bin24") return "00206D\r";
  if (format == "query") return "8.30104E+01\r\n";
  if (format == "modbus") return std::string("\x01\x04\x04\x42\xA7\x00\x00\x5E\x1F", 9);
  return format == "keys" ? "83.0104\n" : "83.0104\r\n";
}

std::string bytes_of(const std::string& format) {
  std::string bytes;
  for (std::size_t i = 0; i < kFrames; ++i) bytes += frame_of(format);
  return bytes;
}

void decode(benchmark::State& state, const std::string& format) {
  const auto decoder = drivers::make_decoder(shipped(format), Unit::mm, drivers::Wire::serial);
  std::vector<Received> bytes;
  for (const char c : bytes_of(format)) bytes.push_back({static_cast<std::uint8_t>(c), false});
  decoder->ask();
  measure(state, "decode " + format, kFrames, [&] {
    std::size_t numbers = 0;
    for (const auto& event : decoder->feed(bytes))
      numbers += std::holds_alternative<drivers::Measurement>(event) ? 1U : 0U;
    if (numbers != kFrames) state.SkipWithError("a frame is no number");
  });
}

void find_ends(benchmark::State& state, const std::string& format) {
  const std::string bytes = bytes_of(format);
  const char end = frame_of(format).back();
  measure(state, "memchr " + format, kFrames, [&] {
    std::size_t ends = 0;
    for (const char* at = bytes.data();
         (at = static_cast<const char*>(
              std::memchr(at, end, static_cast<std::size_t>(bytes.data() + bytes.size() - at)))) != nullptr;
         ++at)
      ++ends;
    benchmark::DoNotOptimize(ends);
  });
}

const bool registered = [] {
  for (const std::string format : {"line", "bcd13", "bin24", "query", "keys", "modbus"}) {
    benchmark::RegisterBenchmark(("decode_" + format).c_str(), decode, format);
    benchmark::RegisterBenchmark(("memchr_" + format).c_str(), find_ends, format);
  }
  return true;
}();

}  // namespace
}  // namespace tenth::bench
