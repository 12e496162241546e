#include "tests/bench/samples.hpp"

#include <algorithm>
#include <cstdio>
#include <map>
#include <numeric>
#include <vector>

namespace tenth::bench {
namespace {

struct Samples {
  std::size_t rows = 0;
  std::vector<double> us;
};

std::map<std::string, Samples>& all() {
  static std::map<std::string, Samples> samples;
  return samples;
}

std::map<std::string, long>& counts() {
  static std::map<std::string, long> most;
  return most;
}

/// All zero where nothing was measured.
struct Figures {
  double rows_per_s = 0, p50_us = 0, p99_us = 0;
};

Figures figures(const std::string& name) {
  Samples& samples = all()[name];
  if (samples.us.empty()) return {};
  std::sort(samples.us.begin(), samples.us.end());
  const auto at = [&](double share) {
    return samples.us[static_cast<std::size_t>(share * static_cast<double>(samples.us.size() - 1))];
  };
  const double total_us = std::accumulate(samples.us.begin(), samples.us.end(), 0.0);
  return {static_cast<double>(samples.rows) / total_us * 1e6, at(0.5), at(0.99)};
}

}  // namespace

void keep_sample(const std::string& name, std::size_t rows, std::chrono::nanoseconds took) {
  Samples& samples = all()[name];
  samples.rows += rows;
  samples.us.push_back(std::chrono::duration<double, std::micro>(took).count());
}

void print_beside(const std::string& name, const std::string& against) {
  const Figures mine = figures(name), other = figures(against);
  if (mine.rows_per_s == 0 || other.rows_per_s == 0) return;  // filtered out
  std::printf("%-18s %9.0f rows/s  p50 %7.0f us  p99 %7.0f us   beside %-12s rate %.4f  p50 %.2f  p99 %.2f\n",
              name.c_str(), mine.rows_per_s, mine.p50_us, mine.p99_us, against.c_str(),
              mine.rows_per_s / other.rows_per_s, mine.p50_us / other.p50_us, mine.p99_us / other.p99_us);
}

double median_us(const std::string& name) {
  return figures(name).p50_us;
}

void print_cpu_beside(const std::string& name, const std::string& against) {
  const Figures mine = figures(name), other = figures(against);
  if (mine.rows_per_s == 0 || other.rows_per_s == 0) return;
  std::printf("%-18s p50 %7.1f us CPU  p99 %7.1f us CPU   beside %-12s p50 %.2f  p99 %.2f\n", name.c_str(), mine.p50_us,
              mine.p99_us, against.c_str(), mine.p50_us / other.p50_us, mine.p99_us / other.p99_us);
}

void keep_count(const std::string& name, long count) {
  long& most = counts().try_emplace(name, 0).first->second;
  most = std::max(most, count);
}

void print_counts_beside(const std::string& name, const std::string& against) {
  const auto mine = counts().find(name), other = counts().find(against);
  if (mine == counts().end() || other == counts().end()) return;
  std::printf("%-18s %ld at most   beside %-12s %ld\n", name.c_str(), mine->second, against.c_str(), other->second);
}

void print_goal(const std::string& name, std::chrono::microseconds goal) {
  const Figures mine = figures(name);
  if (mine.rows_per_s == 0) return;
  std::printf("%-18s p50 %7.1f us CPU  p99 %7.1f us CPU   goal %lld us  p50 %.2f of it\n", name.c_str(), mine.p50_us,
              mine.p99_us, static_cast<long long>(goal.count()), mine.p50_us / static_cast<double>(goal.count()));
}

}  // namespace tenth::bench
