#pragma once

#include <string>
#include <vector>

namespace tenth::paper {

/// By which rule a verdict is reached, and what the uncertainty in it is, one sentence each.
const std::vector<std::string>& decision_rule();

/// What every reader should bear in mind, one sentence each.
const std::vector<std::string>& cautions();

}  // namespace tenth::paper
