#include "cli/render/audit.hpp"

#include <ostream>

#include "schema/json/escape.hpp"

namespace tenth::cli {

Json audit_json(const Audit& audit) {
  const auto& [ok, entries, head, first_bad, why] = audit.finding;
  return {{"ok", ok},
          {"entries", entries},
          {"head", {{"seq", head.seq}, {"hash", hex(head.hash)}}},
          {"first_bad", or_null(first_bad)},
          {"why", text_or_null(valid_utf8(why))},
          {"cannot_tell", audit.cannot_tell}};
}

void show_audit(Context& context, const Audit& audit) {
  const auto& found = audit.finding;
  auto& out = context.world.out;
  if (found.ok)
    out << context.ink(Tone::good, "+ whole") << "    " << found.entries << " entries\n";
  else
    out << context.ink(Tone::bad, "! false") << "    " << printable(found.why)
        << (found.first_bad ? ", first at entry " + std::to_string(*found.first_bad) : "") << '\n';
  out << "  head     " << printed(found.head) << '\n';
  for (const auto& unknown : audit.cannot_tell) out << context.ink(Tone::quiet, "  cannot tell " + unknown) << '\n';
}

}  // namespace tenth::cli
