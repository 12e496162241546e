#pragma once

#include "cli/context.hpp"

namespace tenth::cli {

void show_study(Context& context, const Json& study);
/// How far a study of masters is, and the master of its next turn.
void show_turn(Context& context, const Json& study);
void show_studies(Context& context, const Json& list);
void show_bias(Context& context, const Json& bias);
void show_linearity(Context& context, const Json& linearity);

}  // namespace tenth::cli
