#pragma once

#include <map>
#include <string>

#include "simulators/live.hpp"

namespace tenth::simulators {

using Gauges = std::map<std::string, Live>;

/// Answers the questions that have come over a port: those of the gauges on it that are asked, each with its delay.
/// Nobody answers what is no question for one of them.
void answer_questions(Outlet& outlet, Gauges& gauges, Agenda& agenda, Time now);

}  // namespace tenth::simulators
