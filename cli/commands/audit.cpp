#include "cli/render/audit.hpp"

#include <memory>

#include "cli/audit_run.hpp"
#include "cli/command.hpp"
#include "cli/words.hpp"
#include "rules/nearest.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string ledger, record, head;
};

/// SEQ:HEX as it stands on printed pages.
Result<Head> parse_head(const std::string& text) {
  const auto colon = text.find(':');
  const auto digest = colon == std::string::npos ? std::nullopt : digest_from_hex(text.substr(colon + 1));
  const auto seq = parse_run(text.substr(0, colon));
  if (digest && seq && !seq->last) return Head{seq->first, *digest};
  return wrong_words("head", quoted(text) + " is no head of a ledger",
                     "write SEQ:HEX as it is printed, HEX being 64 hexadecimal digits");
}

Result<Exit> audit(const Words& words, Context& context) {
  AuditAsk ask{words.ledger, words.record, std::nullopt};
  if (!words.head.empty()) {
    const auto head = parse_head(words.head);
    if (!head) return tl::unexpected(head.error());
    ask.head = *head;
  }
  // A record can be held against a printed head without a ledger; all else needs one.
  if (ask.ledger.empty() && ask.record.empty()) ask.ledger = default_ledger(context.world);
  const auto found = run_audit(ask, context.world);
  if (!found) return tl::unexpected(found.error());
  if (context.options.json)
    context.print(audit_json(*found));
  else
    show_audit(context, *found);
  return found->finding.ok ? Exit::done : Exit::no;
}

Action declare_audit(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("--ledger", words->ledger, "The ledger; else that of the state directory")->type_name("FILE");
  app.add_option("--record", words->record, "A record made by 'tenth export --format json'")->type_name("FILE");
  app.add_option("--head", words->head, "A head as printed on a page")->type_name("SEQ:HEX");
  return [words](Context& context) { return audit(*words, context); };
}

}  // namespace

std::vector<Command> audit_commands() {
  return {{"audit",
           "Verify a ledger or a record; needs no daemon",
           {"tenth audit", "tenth audit --record k31.json", "tenth audit --ledger ledger.db --record k31.json",
            "tenth audit --head 812:9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"},
           declare_audit}};
}

}  // namespace tenth::cli
