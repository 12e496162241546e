#include "drivers/line/line.hpp"

#include <re2/re2.h>

#include <algorithm>
#include <array>
#include <map>

#include "drivers/number.hpp"

namespace tenth::drivers {

namespace {

/// What the groups of a pattern gave; an absent one is empty.
using Groups = std::map<std::string, std::string, std::less<>>;

/// The profile's pattern. Linear in the frame's length whatever it holds; bytes are matched as bytes.
class Pattern {
 public:
  explicit Pattern(const std::string& pattern) : compiled_(pattern, RE2::Latin1) {}

  std::optional<Groups> match(std::string_view frame) const {
    std::array<re2::StringPiece, kMostGroups> found;
    const int count = std::min(1 + compiled_.NumberOfCapturingGroups(), static_cast<int>(kMostGroups));
    const re2::StringPiece text(frame.data(), frame.size());
    if (!compiled_.Match(text, 0, frame.size(), RE2::ANCHOR_BOTH, found.data(), count)) return std::nullopt;
    Groups groups;
    for (const auto& [name, at] : compiled_.NamedCapturingGroups())
      if (at < count) groups[name] = std::string(found.at(static_cast<std::size_t>(at)));
    return groups;
  }

 private:
  static constexpr std::size_t kMostGroups = 32;
  RE2 compiled_;
};

std::string trimmed(std::string text) {
  text.erase(0, std::min(text.find_first_not_of(' '), text.size()));
  text.erase(text.find_last_not_of(' ') + 1);
  return text;
}

/// `rules` knows commas and exponents, but no blanks after a sign.
std::string without_blanks(std::string number) {
  std::erase(number, ' ');
  return number;
}

class Parser {
 public:
  Parser(const Profile& profile, std::optional<Unit> unit)
      : profile_(profile),
        unit_(profile.value.unit ? profile.value.unit : unit),
        pattern_(std::make_shared<Pattern>(profile.value.pattern)) {}

  Parsed operator()(std::string_view frame) const {
    auto groups = pattern_->match(frame);
    if (!groups && !profile_.frame.start.empty()) groups = pattern_->match(frame.substr(profile_.frame.start.size()));
    if (!groups) return bad_frame("the frame does not match the profile's pattern");
    if (auto wrong = wrong_status((*groups)["status"])) return tl::unexpected(std::move(*wrong));
    const std::string named = trimmed((*groups)["unit"]);
    const auto unit = unit_of(named);
    if (!unit) return tl::unexpected(unit.error());
    std::string text = trimmed((*groups)["number"]);
    const std::string number = without_blanks(text);
    Parsed parsed = measured(profile_, std::move(text), number, *unit, !named.empty());
    if (parsed) parsed->channel = trimmed((*groups)["channel"]);
    return parsed;
  }

 private:
  std::optional<Wrong> wrong_status(const std::string& status) const {
    const StatusForm& form = profile_.status;
    if (std::find(form.good.begin(), form.good.end(), status) != form.good.end()) return std::nullopt;
    const auto why = form.why.find(status);
    return Wrong{FaultReason::status, why == form.why.end() ? "the gauge sends the status " + status : why->second};
  }

  tl::expected<Unit, Wrong> unit_of(const std::string& named) const {
    if (named.empty()) {
      if (unit_) return *unit_;
      return bad_frame("the frame names no unit and the gauge has none");
    }
    const auto found = profile_.value.units.find(named);
    if (found == profile_.value.units.end()) return bad_frame("the profile does not know the unit " + named);
    return found->second;
  }

  Profile profile_;
  std::optional<Unit> unit_;
  std::shared_ptr<const Pattern> pattern_;
};

}  // namespace

std::unique_ptr<Decoder> make_line(const Profile& profile, std::optional<Unit> unit, Wire) {
  return std::make_unique<FrameDecoder>(profile.frame, profile.trigger.ask, Parser(profile, unit));
}

}  // namespace tenth::drivers
