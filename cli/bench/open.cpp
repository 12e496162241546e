#include "cli/bench/open.hpp"

#include <algorithm>

#include "cli/render/text.hpp"
#include "rules/joined.hpp"

namespace tenth::cli {
namespace {

/// One thing that is open: what it is of, in short, and all that is to be said.
struct Open {
  std::string of, all;
};
struct Group {
  std::string mark;
  std::vector<Open> open;
};

std::string spoken_feature(const Json& of) {
  return part_words({{"feature", text(of, "feature")}});
}

Group away(const Json& bench) {
  Group group{"^ away", {}};
  for (const Json& each : bench.value("away", Json::array()))
    group.open.push_back(
        {spoken_feature(each), spoken_feature(each) + " is at " + text(each, "to") + ": " + text(each, "ask")});
  return group;
}

Group to_set_up(const Json& bench) {
  Group group{"# set up first", {}};
  for (const Json& each : bench.value("plan", Json::array()))
    if (const auto setup = text(each, "setup"); !setup.empty())
      group.open.push_back({spoken_feature(each),
                            spoken_feature(each) + ", " + setup + ": tenth setup " + text(each, "feature") + " yes"});
  return group;
}

Group unconfirmed(const Json& bench) {
  Group group{"~ unconfirmed", {}};
  for (const Json& each : bench.value("unconfirmed", Json::array()))
    group.open.push_back({text(each, "gauge"), text(each, "readings") +
                                                   (count(each, "readings") == 1 ? " reading of " : " readings of ") +
                                                   text(each, "gauge") + ": tenth recheck " + text(each, "gauge")});
  return group;
}

Group claimed(const Json& bench) {
  Group group{"\" claimed", {}};
  for (const Json& each : bench.value("plan", Json::array()))
    if (const auto by = texts(each, "claimed_by"); !by.empty())
      group.open.push_back({spoken_feature(each), spoken_feature(each) + " by " + joined(by) + ", not judged"});
  return group;
}

std::vector<Group> groups(const Json& bench) {
  return {away(bench), to_set_up(bench), unconfirmed(bench), claimed(bench)};
}

}  // namespace

bool is_away(const Json& bench, const Json& feature) {
  const Json away = bench.value("away", Json::array());
  return std::ranges::any_of(away, [&](const Json& each) { return text(each, "feature") == text(feature, "feature"); });
}

std::string open_words(const Json& bench) {
  std::vector<std::string> all;
  for (const Group& group : groups(bench)) {
    std::vector<std::string> of;
    for (const Open& open : group.open) of.push_back(open.of);
    if (!of.empty()) all.push_back(group.mark + ": " + joined(of));
  }
  return joined(all, "  ");
}

std::vector<Line> open_lines(const Json& bench) {
  std::vector<Line> lines;
  for (const Group& group : groups(bench))
    for (const Open& open : group.open) lines.push_back({group.mark + ": " + open.all, Look::strong});
  return lines;
}

std::string open_at(const Json& bench, const Json& place) {
  const auto feature = text(place, "feature");
  std::vector<std::string> all;
  for (const Json& each : bench.value("away", Json::array()))
    if (text(each, "feature") == feature) all.push_back("^ AWAY at " + text(each, "to") + ": readings are suspect");
  for (const Json& each : bench.value("plan", Json::array()))
    if (const auto setup = text(each, "setup"); text(each, "feature") == feature && !setup.empty())
      all.push_back("# SET UP FIRST: " + setup);
  return joined(all, "  ");
}

}  // namespace tenth::cli
