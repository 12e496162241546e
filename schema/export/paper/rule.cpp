#include "schema/export/paper/rule.hpp"

namespace tenth::paper {

const std::vector<std::string>& decision_rule() {
  static const std::vector<std::string> sentences = {
      "Decision rule (the zones of ISO 14253-1): a figure is in where it lies inside its limit by its uncertainty U or "
      "more, out where it lies beyond the limit by more than U, and doubtful between: there this measurement cannot "
      "decide. A limit itself is allowed. Where no uncertainty is stated, U counts as 0. Places still to be measured "
      "make a result incomplete, unless it is out already. A whole is as good as its worst part.",
      "U is an expanded uncertainty with coverage factor k = 2, a level of confidence of about 95 %. Of a size it is "
      "that stated for its gauge, the largest where several were used; a gauge set in another one carries both, as "
      "the root of the sum of their squares.",
      "Of out of round, taper and spread, which are differences of two readings of a gauge, it is √2 times the "
      "gauge's repeatability; where that is not stated, √2 times its uncertainty.",
      "Of a clearance it is the root of the sum of squares of both sides' uncertainties, and, of sizes at 20 °C, of "
      "what the temperatures told may be off by.",
      "The probability of conforming is that of a normal distribution about the figure with a standard uncertainty of "
      "U/2 (JCGM 106); of a clearance judged by its extremes, the lesser of the two."};
  return sentences;
}

const std::vector<std::string>& cautions() {
  static const std::vector<std::string> sentences = {
      "The limits are the builder's and the part makers'. This paper compares measurements with them; whether an "
      "engine "
      "is fit for its work is decided by the person responsible for it. Certified engines need approved data and a "
      "licensed signature besides.",
      "Sizes are as read, at the temperature of the parts, where “at 20 °C” does not stand beside them.",
      "Clean and dry parts before measuring. Solvents burn and poison: air, goggles, gloves and no flame; blow dry "
      "with at most 207 kPa (30 psi), never at skin.",
      "Never brush measured surfaces with wire: it changes their sizes.",
      "Turn the finished engine by hand through several turns before its first start, and start it first with guards "
      "on and an extinguisher at hand."};
  return sentences;
}

}  // namespace tenth::paper
