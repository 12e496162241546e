#pragma once

#include <cstdint>

#include "simulators/live.hpp"

namespace tenth::simulators {

// What a gauge sends by itself, step by step, for as long as its agenda is run. What finds no room on the wire, or no
// wire, is lost.

/// Frames of what it shows, `stream_hz` a second, until `end_stream`. Late ones are left out, not sent in a heap.
void begin_stream(Live& live, Agenda& agenda, Time now);
void end_stream(Live& live);

/// Bytes at a rate, as many as are read; given up when for a second nothing was.
struct Torrent {
  std::string source{};   ///< repeated; empty: noise
  std::int64_t rate = 0;  ///< bytes a second
  std::size_t left = 0;
  Time begun, taken;  ///< and when the wire last took some
  std::size_t sent = 0;
};

void pour(Live& live, Agenda& agenda, Torrent torrent, Time now);

/// So many bytes of noise.
std::string noise(Random& random, std::size_t count);

}  // namespace tenth::simulators
