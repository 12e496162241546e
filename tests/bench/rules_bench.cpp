// What the rules take: all figures, verdicts and alerts of a V8 with every place read twice over.
#include <ctime>
#include <random>

#include "rules/alerts.hpp"
#include "rules/remedies/assignment.hpp"
#include "rules/remedies/remedy.hpp"
#include "schema/spec/spec_file.hpp"
#include "tests/bench/bare.hpp"
#include "tests/bench/samples.hpp"

namespace tenth::bench {
namespace {

const char* const kSpec = R"(
title = "bench"
unit = "mm"
[layout]
cylinders = 8
mains = 5
crankpins = 4
pins = [["1", "2"], ["3", "4"], ["5", "6"], ["7", "8"]]
[feature.bore]
count = "cylinders"
kind = "inside"
limits = [83.000, 83.035]
levels = ["top", "middle", "bottom"]
axes = ["thrust", "pin"]
out_of_round = 0.010
taper = 0.012
[feature.piston]
count = "cylinders"
kind = "outside"
limits = [82.940, 82.960]
[feature.main_bearing]
count = "mains"
kind = "inside"
limits = [60.030, 60.060]
levels = ["front", "rear"]
axes = ["vertical", "side"]
[feature.main_journal]
count = "mains"
kind = "outside"
limits = [59.980, 60.000]
levels = ["front", "rear"]
axes = ["vertical", "side"]
out_of_round = 0.005
taper = 0.005
[feature.rod_bearing]
count = "cylinders"
kind = "inside"
limits = [50.030, 50.060]
axes = ["vertical", "side"]
[feature.crankpin]
count = "crankpins"
kind = "outside"
limits = [49.980, 50.000]
levels = ["front", "rear"]
axes = ["vertical", "side"]
out_of_round = 0.005
[feature.ring_gap_top]
count = "cylinders"
kind = "gap"
limits = [0.30, 0.40]
[feature.ring_gap_second]
count = "cylinders"
kind = "gap"
limits = [0.35, 0.45]
[fit.piston_clearance]
inside = "bore"
outside = "piston"
limits = [0.040, 0.095]
[fit.main_clearance]
inside = "main_bearing"
outside = "main_journal"
limits = [0.035, 0.065]
[fit.rod_clearance]
inside = "rod_bearing"
outside = "crankpin"
seats = ["front", "rear"]
limits = [0.035, 0.065]
[spread.main_journal]
limit = 0.005
[spread.bore]
limit = 0.010
by = "readings"
)";

/// Near the middle of its limits, a few micrometres off from place to place, so that some figures are doubtful.
Reading reading_at(const Feature& feature, const Place& place, std::int64_t seq) {
  constexpr std::int64_t kScatter = 7;
  Reading reading;
  reading.seq = seq;
  reading.place = place;
  reading.stage = "as found";
  const Length middle = Length::from_pm((feature.limits.lower->pm() + feature.limits.upper->pm()) / 2);
  reading.value = middle + Length::from_um(seq % kScatter - kScatter / 2);
  reading.size = reading.value;
  reading.uncertainty = Length::from_um(2);
  reading.repeatability = Length::from_um(1);
  return reading;
}

Engine engine_of(const std::string& spec) {
  Engine engine;
  engine.name = "V8";
  engine.spec = std::make_shared<const Spec>(parse_spec(spec, "bench.toml").value());
  std::int64_t seq = 0;
  for (int time = 0; time < 2; ++time)
    for (const Feature& feature : engine.spec->features)
      for (int index = 1; index <= feature.count(); ++index)
        for (const Place& place : places_of(feature, index))
          engine.readings.push_back(reading_at(feature, place, ++seq));
  return engine;
}

Engine v8() {
  return engine_of(kSpec);
}

std::chrono::nanoseconds cpu_time() {
  timespec now{};
  must(clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now) == 0);
  return std::chrono::seconds(now.tv_sec) + std::chrono::nanoseconds(now.tv_nsec);
}

template <class Work>
void measure_cpu(benchmark::State& state, const std::string& name, Work work) {
  for (auto _ : state) {
    const auto begun = cpu_time();
    benchmark::DoNotOptimize(work());
    keep_sample(name, 1, cpu_time() - begun);
  }
}

void check_v8(benchmark::State& state) {
  const Engine engine = v8();
  measure_cpu(state, "check_v8", [&] { return judge(engine); });
}

void causes_v8(benchmark::State& state) {
  const Engine engine = v8();
  const Report report = judge(engine);
  measure_cpu(state, "causes_v8", [&] { return causes(engine, report); });
}

/// With every main bearing out, and nothing on the shelf.
void remedies_v8(benchmark::State& state) {
  Engine engine = v8();
  for (Reading& reading : engine.readings)
    if (reading.place->feature == "main_bearing") reading.size = *reading.size - Length::from_um(25);
  const RemedyList list = remedies(engine, nullptr);
  must(list.remedies.size() + list.none.size() > 0);
  measure_cpu(state, "remedies_v8", [&] { return remedies(engine, nullptr); });
}

constexpr int kShelves = 40;

/// Ten mains and forty kinds of halves, each shelf of another sort: walls on a coarse or fine grid, for one side or
/// either, few or more of each, journals alike or not, all mains tight or some.
Stock shelf_of(std::uint32_t number, Engine& engine) {
  std::mt19937 random(number);
  const auto one_of = [&](std::initializer_list<int> each) { return *(each.begin() + random() % each.size()); };
  const bool either = number % 2 == 0;
  const int grid_um = one_of({1, 1, 2, 5}), spread_um = one_of({10, 30, 100}), count = one_of({0, 1, 1, 2});
  const int tight_um = one_of({-40, -25, 0, 25}), scatter_um = one_of({2, 10, 30});
  Stock stock;
  for (int kind = 0; kind < 40; ++kind) {
    Shell shell;
    shell.id = std::to_string(kind);
    shell.feature = "main_bearing";
    shell.half = either ? Half::either : kind < 20 ? Half::upper : Half::lower;
    const Length wall = Length::from_um(2500 + static_cast<int>(random()) % spread_um / grid_um * grid_um);
    shell.wall = Wall{wall, wall};
    shell.count = count;
    stock.shells.push_back(shell);
  }
  for (int index = 1; index <= 10; ++index)
    engine.installed[{"main_bearing", index}] = {"", std::to_string(random() % 20), std::to_string(20 + random() % 20)};
  for (Reading& reading : engine.readings)
    if (reading.place->feature == "main_bearing")
      reading.size = *reading.size + Length::from_um(tight_um + static_cast<int>(random() % 1000) % scatter_um);
  return stock;
}

/// All of `remedies` with such a shelf; p99 is the hardest of them.
void shells_10_of_40(benchmark::State& state) {
  std::string spec = kSpec;
  spec.replace(spec.find("mains = 5"), 9, "mains = 10");
  std::vector<std::pair<Engine, Stock>> shelves;
  for (std::uint32_t number = 0; number < kShelves; ++number) {
    Engine engine = engine_of(spec);
    Stock stock = shelf_of(number, engine);
    shelves.emplace_back(std::move(engine), std::move(stock));
  }
  std::size_t offered = 0, next = 0;
  for (const auto& [engine, stock] : shelves)
    for (const Remedy& remedy : remedies(engine, &stock).remedies) {
      must(remedy.cautions.size() == 1);  // none that says "not proven"
      offered += remedy.kind == RemedyKind::shells;
    }
  must(offered > kShelves / 2);
  measure_cpu(state, "shells_10_of_40", [&] {
    const auto& [engine, stock] = shelves[next++ % shelves.size()];
    return remedies(engine, &stock);
  });
}

/// The same matrix as scipy gets.
void assign_200(benchmark::State& state) {
  constexpr std::size_t kCount = 200;
  CostMatrix matrix(kCount, kCount);
  std::uint64_t number = 1;
  for (std::int64_t& cost : matrix.costs) {
    number = number * 6364136223846793005U + 1442695040888963407U;
    cost = static_cast<std::int64_t>(number >> 34U);
  }
  std::int64_t sum = 0;
  const auto assignment = assign(matrix);
  for (std::size_t row = 0; row < kCount; ++row) sum += matrix.at(row, assignment->column_of[row]);
  state.SetLabel("sum " + std::to_string(sum));
  measure_cpu(state, "assign_200", [&] { return assign(matrix); });
}

BENCHMARK(remedies_v8)->Unit(benchmark::kMicrosecond);
BENCHMARK(shells_10_of_40)->Unit(benchmark::kMicrosecond)->Iterations(kShelves);
BENCHMARK(assign_200)->Unit(benchmark::kMicrosecond);
BENCHMARK(check_v8)->Unit(benchmark::kMicrosecond);
BENCHMARK(causes_v8)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace tenth::bench
