#pragma once

#include <benchmark/benchmark.h>

#include <chrono>
#include <cstddef>
#include <string>

namespace tenth::bench {

/// Keeps how long one commit of `rows` rows took, under the name of what was measured.
void keep_sample(const std::string& name, std::size_t rows, std::chrono::nanoseconds took);

/// Prints, for each name, rows a second and latency, and both beside those of the name it is to be held against.
void print_beside(const std::string& name, const std::string& against);

/// Of what was kept under that name; nothing kept: 0.
double median_us(const std::string& name);

/// Prints processor time of one beside another's.
void print_cpu_beside(const std::string& name, const std::string& against);

/// Keeps how often something happened, and prints the most beside another's.
void keep_count(const std::string& name, long count);
void print_counts_beside(const std::string& name, const std::string& against);

/// Prints what one took beside what it may take.
void print_goal(const std::string& name, std::chrono::microseconds goal);

/// Times `commit` once an iteration and keeps the samples.
template <class Commit>
void measure(benchmark::State& state, const std::string& name, std::size_t rows, Commit commit) {
  for (auto _ : state) {
    const auto begun = std::chrono::steady_clock::now();
    commit();
    keep_sample(name, rows, std::chrono::steady_clock::now() - begun);
  }
  state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(rows));
}

}  // namespace tenth::bench
