#include "rules/remedies/journals.hpp"

#include <algorithm>

#include "rules/figure.hpp"
#include "rules/remedies/words.hpp"

namespace tenth {
namespace {

void raise_floor(Window& window, Length floor, std::string by) {
  if (window.floor && *window.floor >= floor) return;
  window.floor = floor;
  window.floor_by = std::move(by);
}

void lower_ceiling(Window& window, Length ceiling, std::string by, int index) {
  if (window.ceiling && *window.ceiling <= ceiling) return;
  window.ceiling = ceiling;
  window.ceiling_by = std::move(by);
  window.ceiling_index = index;
}

void narrow(Window& window, const Setup& setup, const Grind& grind, const Couple& couple) {
  const auto [least, most] = std::ranges::minmax(inside_sizes(setup, couple));
  const std::string& label = label_of(setup.inside(), couple.inside_index);
  if (const auto upper = setup.fit->limits.upper)
    raise_floor(window, most - *upper + grind.tolerance, "the upper limit of the clearance at " + label);
  if (const auto lower = setup.fit->limits.lower)
    lower_ceiling(window, least - *lower - grind.tolerance, "the lower limit of the clearance at " + label,
                  couple.inside_index);
}

}  // namespace

Journals journals_of(const Setup& setup) {
  Journals result{{}, true};
  for (int index = 1; index <= setup.outside().count(); ++index) {
    Journal journal{index, {}, {}, {}};
    for (const Couple& couple : setup.couples)
      if (couple.outside_index == index) journal.couples.push_back(couple);
    const auto sizes = sizes_at(setup.counts, places_of(setup.outside(), index));
    const bool measured = std::ranges::all_of(journal.couples, [&](const Couple& c) { return complete(setup, c); });
    if (journal.couples.empty() || !measured) {
      result.complete = false;
      continue;
    }
    journal.mean = mean(sizes);
    journal.least = std::ranges::min(sizes);
    result.all.push_back(std::move(journal));
  }
  return result;
}

std::string Window::conflict(Unit unit) const {
  return floor_by + " asks for at least " + both_units(*floor, unit) + ", " + ceiling_by + " allows at most " +
         both_units(*ceiling, unit) + ": " + both_units(*floor - *ceiling, unit) + " too little";
}

Length Window::nearest(std::optional<Length> ideal) const {
  const Length wanted = std::min(ideal.value_or(*ceiling), *ceiling);
  return floor ? std::max(wanted, *floor) : wanted;
}

Window window_of(const Setup& setup, const Grind& grind, const std::vector<Journal>& journals) {
  Window window;
  for (const Journal& journal : journals) {
    lower_ceiling(window, journal.least - grind.cleanup,
                  "the least reading of " + grind.feature + " " + label_of(setup.outside(), journal.index) +
                      " less what cleaning up takes",
                  journal.couples.front().inside_index);
    for (const Couple& couple : journal.couples) narrow(window, setup, grind, couple);
  }
  if (grind.smallest) raise_floor(window, *grind.smallest + grind.tolerance, "the last size of this crank");
  return window;
}

std::optional<Length> ideal_size(const Setup& setup, const std::vector<Journal>& journals) {
  const auto aim = aim_of(*setup.fit);
  if (!aim) return std::nullopt;
  std::vector<Length> means;
  for (const Journal& journal : journals)
    for (const Couple& couple : journal.couples) means.push_back(mean(inside_sizes(setup, couple)));
  return mean(means) - *aim;
}

Length largest_clean(const Grind& grind, const std::vector<Journal>& journals) {
  return std::ranges::min(journals, {}, &Journal::least).least - grind.cleanup;
}

bool can_be_ground_to(const Grind& grind, const std::vector<Journal>& journals, Length size) {
  return size <= largest_clean(grind, journals) && (!grind.smallest || size - grind.tolerance >= *grind.smallest);
}

}  // namespace tenth
