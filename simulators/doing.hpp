#pragma once

#include <chrono>
#include <string>

#include "simulators/live.hpp"

namespace tenth::simulators {

/// An act that was begun: what went over the wire, for people, and how long it lasts.
struct Done {
  std::string text;
  std::chrono::milliseconds lasts{0};
};

/// One act on the gauge that it names.
struct Doing {
  Live& live;
  Agenda& agenda;
  Time now;

  Result<Done> operator()(const Press& press);
  Result<Done> operator()(const Raw& raw) { return send(raw.bytes); }
  Result<Done> operator()(const Noise& noise);
  Result<Done> operator()(const Flood& flood);
  Result<Done> operator()(const Endless& endless);
  Result<Done> operator()(const Spoil& spoil);
  Result<Done> operator()(const Mute& mute);
  Result<Done> operator()(const Delay& delay);
  Result<Done> operator()(const Switch& switched);
  Result<Done> operator()(const Drift& drift);
  Result<Done> operator()(const Stream& stream);
  Result<Done> operator()(const Hold& hold);
  Result<Done> operator()(const Approach& approach);
  Result<Done> operator()(const Rock& rock);
  Result<Done> operator()(const HangUp&);
  Result<Done> operator()(const Return&);
  Result<Done> operator()(const Wait&) { return Done{}; }

 private:
  Result<Done> send(const std::string& bytes);
  Result<Done> move(const Motion& motion);
};

}  // namespace tenth::simulators
