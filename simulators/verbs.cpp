#include "simulators/verbs.hpp"

#include <array>

namespace tenth::simulators {

namespace {

using std::chrono::milliseconds;

constexpr int kHour = 3'600'000;    // in milliseconds: the longest time of an act
constexpr int kMost = 100'000'000;  // bytes, and bytes a second

constexpr std::array<std::string_view, 4> kSlips = {"half", "doubled", "dropped", "noisy"};

Slip slip(Words& words) {
  for (std::size_t i = 0; i < kSlips.size(); ++i)
    if (words.take(kSlips[i])) return static_cast<Slip>(i + 1);
  return Slip::none;
}

Act press(Words& words) {
  Press act{.gauge = words.text()};
  if (words.has_other_than({"in", "status", "half", "doubled", "dropped", "noisy"})) act.value = words.amount();
  if (words.take("in")) act.unit = words.unit();
  if (words.take("status")) act.status = words.text();
  act.slip = slip(words);
  return act;
}

Act noise(Words& words) {
  return Noise{words.text(), words.whole(1, kMost)};
}

Act flood(Words& words) {
  Flood act{words.text(), words.whole(1, kMost), words.whole(1, 60)};
  act.frames = words.take("frames");
  return act;
}

Act endless(Words& words) {
  return Endless{words.text(), words.whole(1, kMost)};
}

Act spoil(Words& words) {
  Spoil act{.gauge = words.text()};
  act.slip =
      static_cast<Slip>(1 + words.choice({"half", "doubled", "dropped", "noisy", "crc", "transaction", "exception"}));
  if (act.slip == Slip::exception) act.code = words.whole(1, 255);
  return act;
}

Act mute(Words& words) {
  return Mute{words.text(), true};
}

Act unmute(Words& words) {
  return Mute{words.text(), false};
}

Act delay(Words& words) {
  return Delay{words.text(), milliseconds(words.whole(0, kHour))};
}

Act switch_unit(Words& words) {
  return Switch{words.text(), words.unit()};
}

Act drift(Words& words) {
  return Drift{words.text(), words.amount()};
}

Act stream(Words& words) {
  return Stream{words.text(), words.choice({"start", "stop"}) == 0};
}

Act hold(Words& words) {
  return Hold{words.text(), words.amount()};
}

Act approach(Words& words) {
  Approach act{words.text(), words.amount()};
  if (words.take("over_ms")) act.over = milliseconds(words.whole(1, kHour));
  return act;
}

Act rock(Words& words) {
  Rock act{.gauge = words.text(), .value = words.amount()};
  if (words.take("passes")) act.passes = words.whole(1, 1000);
  if (words.take("amplitude")) act.amplitude = words.amount();
  if (words.take("period_ms")) act.period = milliseconds(words.whole(1, kHour / 1000));
  if (words.take("noise")) act.noise = words.amount();
  if (act.value.millionths <= 0) words.fail("only a size above 0 can be rocked through: write the diameter itself");
  if (act.amplitude.value_or(Amount{1}).millionths <= 0) words.fail("the amplitude is a length above 0");
  if (act.noise.millionths < 0) words.fail("the noise is its standard deviation, 0 or more");
  return act;
}

Act hang_up(Words& words) {
  return HangUp{words.text()};
}

Act come_back(Words& words) {
  return Return{words.text()};
}

Act wait(Words& words) {
  if (words.take("told")) return Wait{};
  return Wait{milliseconds(words.whole(0, kHour))};
}

constexpr std::array kVerbs = {
    Verb{"press", "press GAUGE [VALUE] [in mm|in] [status TEXT] [half|doubled|dropped|noisy]", press},
    Verb{"noise", "noise GAUGE BYTES", noise},
    Verb{"flood", "flood GAUGE BYTES_PER_SECOND SECONDS [frames]", flood},
    Verb{"endless", "endless GAUGE BYTES", endless},
    Verb{"spoil", "spoil GAUGE half|doubled|dropped|noisy|crc|transaction|exception CODE", spoil},
    Verb{"mute", "mute GAUGE", mute},
    Verb{"unmute", "unmute GAUGE", unmute},
    Verb{"delay", "delay GAUGE MILLISECONDS", delay},
    Verb{"switch", "switch GAUGE mm|in", switch_unit},
    Verb{"drift", "drift GAUGE AMOUNT", drift},
    Verb{"stream", "stream GAUGE start|stop", stream},
    Verb{"hold", "hold GAUGE VALUE", hold},
    Verb{"approach", "approach GAUGE VALUE [over_ms MS]", approach},
    Verb{"rock", "rock GAUGE VALUE [passes N] [amplitude A] [period_ms P] [noise N]", rock},
    Verb{"hangup", "hangup GAUGE", hang_up},
    Verb{"return", "return GAUGE", come_back},
    Verb{"wait", "wait MILLISECONDS or wait told", wait}};

}  // namespace

std::span<const Verb> verbs() {
  return kVerbs;
}

}  // namespace tenth::simulators
