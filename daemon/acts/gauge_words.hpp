#pragma once

#include <optional>
#include <string>

#include "daemon/draft.hpp"
#include "daemon/params.hpp"
#include "rules/result.hpp"
#include "schema/profile/profile.hpp"

namespace tenth {

/// A profile as it was given: one that Tenth ships, by its name, or the whole text of a file.
struct ChosenProfile {
  std::string name, text, sha256;
  Profile profile;
};

/// Refused (4) where there is no such profile, or it is wrong or a pedal's.
Result<ChosenProfile> chosen_profile(const Params& params);

/// What the words of `gauge add` make of a gauge: the body of its entry, all but its profile's entry. Refused (2, 4)
/// where a word is wrong, does not go with the profile, or the port is taken.
Result<Json> gauge_body(const Draft& draft, const std::string& name, const std::optional<std::string>& serial,
                        const Params& params, const ChosenProfile& chosen);

}  // namespace tenth
