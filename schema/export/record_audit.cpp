#include "schema/export/exports.hpp"
#include "schema/export/record_parts.hpp"
#include "schema/ledger/references.hpp"

namespace tenth {
namespace {

constexpr std::size_t kMostRecordBytes = std::size_t{512} << 20;
constexpr std::size_t kHexDigits = 64;  // of one SHA-256

/// What is not true, and the first entry concerned.
struct Falsehood {
  std::optional<std::int64_t> seq;
  std::string why;
};
template <class T>
using Truth = tl::expected<T, Falsehood>;

auto untrue(std::optional<std::int64_t> seq, std::string why) {
  return tl::unexpected(Falsehood{seq, std::move(why)});
}
auto untrue_entry(std::int64_t seq, const std::string& why) {
  return untrue(seq, "entry " + std::to_string(seq) + " " + why);
}

Json member(const Json& object, const char* key) {
  const auto found = object.is_object() ? object.find(key) : object.end();
  return found == object.end() ? Json(nullptr) : *found;
}

Result<Json> read(std::string_view text) {
  auto record = parse_json(text, kMostRecordBytes);
  if (!record) return record;
  if (member(*record, "format") != kRecordFormat)
    return refuse("no_record", "this is no build record: its format is not " + std::string(kRecordFormat),
                  "give a file made by: tenth export --format json");
  if (member(*record, "version") != kRecordVersion)
    return refuse("record_newer", "this record has a version that this program does not know",
                  "verify it with the version of tenth that made it");
  const Json head = member(*record, "head");
  const bool whole = member(*record, "engine").is_string() && member(*record, "ledger").is_string() &&
                     member(*record, "entries").is_array() && member(*record, "readings").is_array() &&
                     member(*record, "check").is_object() && member(head, "seq").is_number_integer() &&
                     member(head, "hash").is_string();
  if (!whole) return refuse("no_record", "parts of the record are missing or of the wrong type", "export it anew");
  return record;
}

/// Walks the entries and makes the chain again.
struct Walk {
  Given given;
  Head head;
  std::vector<Digest> hashes;
  std::set<std::int64_t> withheld;

  void add(const Digest& digest) {
    head.hash = chain(head.hash, digest);
    ++head.seq;
    hashes.push_back(head.hash);
  }

  Truth<void> add_body(const std::string& text) {
    const std::int64_t seq = head.seq + 1;
    const auto body = parse_json(text, kMostRecordBytes);
    if (!body || !body->is_object()) return untrue_entry(seq, "has a body that is no JSON object");
    if (canonical(*body) != text) return untrue_entry(seq, "has a body that is not in canonical form");
    add(sha256(text));
    given.emplace(seq, Entry{seq, *body, hex(head.hash)});
    return {};
  }

  Truth<void> add_digests(std::string_view text) {
    if (text.empty() || text.size() % kHexDigits != 0) return untrue_entry(head.seq + 1, "has no whole digests");
    for (; !text.empty(); text.remove_prefix(kHexDigits)) {
      const auto digest = digest_from_hex(text.substr(0, kHexDigits));
      if (!digest || hex(*digest) != text.substr(0, kHexDigits))  // one digest has one text
        return untrue_entry(head.seq + 1, "has a digest that is not in small hexadecimal digits");
      add(*digest);
      withheld.insert(head.seq);
    }
    return {};
  }

  Truth<void> add_item(const Json& item) {
    if (member(item, "seq") != head.seq + 1)
      return untrue_entry(head.seq + 1, "is missing: the entries do not run on without a gap");
    const Json body = member(item, "body"), digests = member(item, "digests");
    if (body.is_string() && digests.is_null()) return add_body(body.get_ref<const std::string&>());
    if (digests.is_string() && body.is_null()) return add_digests(digests.get_ref<const std::string&>());
    return untrue_entry(head.seq + 1, "has neither a body nor digests");
  }
};

Truth<Walk> walk(const Json& record) {
  Walk walk;
  for (const Json& item : record.at("entries"))
    if (const auto added = walk.add_item(item); !added) return tl::unexpected(added.error());
  if (record.at("head").at("seq") != walk.head.seq)
    return untrue(std::nullopt, "the entries end at " + std::to_string(walk.head.seq) + ", the head says otherwise");
  if (record.at("head").at("hash") != hex(walk.head.hash))
    return untrue(std::nullopt, "the chain of the entries ends in " + hex(walk.head.hash) + ", not in the head's hash");
  return walk;
}

Truth<void> has_roots(const Given& given, const Json& record) {
  const auto first = given.find(1);
  if (first == given.end() || member(first->second.body, "kind") != "ledger")
    return untrue(1, "entry 1 does not begin a ledger");
  if (member(first->second.body, "id") != record.at("ledger"))
    return untrue(1, "entry 1 begins another ledger than the record names");
  for (const auto& [seq, entry] : given)
    for (const std::int64_t rests_on : references(entry.body))
      if (!given.contains(rests_on))
        return untrue_entry(seq, "rests on entry " + std::to_string(rests_on) + ", whose body is not given");
  return {};
}

/// The first reading that is not what the entries give; empty where only their number differs.
std::optional<std::int64_t> first_other(const Json& told, const Json& computed) {
  for (std::size_t i = 0; i < told.size() && i < computed.size(); ++i)
    if (told[i] != computed[i]) return computed[i].at("seq").get<std::int64_t>();
  return std::nullopt;
}

Truth<void> figures_agree(const Given& given, const Json& record) {
  std::int64_t false_at = 0;
  const auto figures = figures_from(given, record.at("engine").get<std::string>(), false_at);
  if (!figures) return untrue(false_at == 0 ? std::nullopt : std::optional(false_at), figures.error().message);
  if (figures->readings != record.at("readings"))
    return untrue(first_other(record.at("readings"), figures->readings), "the readings are not what the entries give");
  if (figures->check != record.at("check")) return untrue(std::nullopt, "the check is not what the readings give");
  return {};
}

RecordFinding found_false(RecordFinding finding, const Falsehood& falsehood) {
  finding.ok = false;
  finding.first_bad = falsehood.seq;
  finding.why = falsehood.why;
  return finding;
}

}  // namespace

Result<RecordFinding> audit_record(std::string_view text) {
  const auto record = read(text);
  if (!record) return tl::unexpected(record.error());
  const auto walked = walk(*record);
  if (!walked) return found_false({}, walked.error());
  RecordFinding finding;
  finding.head = walked->head;
  finding.entries = walked->head.seq;
  finding.hashes = walked->hashes;
  finding.withheld = walked->withheld;
  finding.engine = record->at("engine").get<std::string>();
  if (const auto rooted = has_roots(walked->given, *record); !rooted) return found_false(finding, rooted.error());
  if (const auto agreed = figures_agree(walked->given, *record); !agreed) return found_false(finding, agreed.error());
  return finding;
}

Result<std::optional<std::int64_t>> wrongly_withheld(const RecordFinding& record, std::span<const Row> rows) {
  TENTH_TRY(const std::set<std::int64_t> needed, needed_entries(rows, record.engine));
  for (const std::int64_t seq : record.withheld)
    if (needed.contains(seq)) return seq;
  return std::nullopt;
}

}  // namespace tenth
