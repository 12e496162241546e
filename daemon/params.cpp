#include "daemon/params.hpp"

#include "schema/json/local_day.hpp"

namespace tenth {
namespace {

tl::unexpected<Refusal> wrong_type(const char* key, const char* right) {
  return wrong_words("params", "the parameter `" + std::string(key) + "` is not " + right,
                     "give " + std::string(right));
}

}  // namespace

const Json* Params::find(const char* key) const {
  const auto found = object_.find(key);
  return found == object_.end() || found->is_null() ? nullptr : &*found;
}

Result<std::string> Params::text(const char* key) const {
  TENTH_TRY(const std::optional<std::string> text, maybe_text(key));
  if (!text || text->empty()) return wrong_type(key, "a text");
  return *text;
}

Result<std::string> Params::words(const char* key) const {
  TENTH_TRY(const std::string text, this->text(key));
  if (blank(text)) return wrong_words(key, "the parameter `" + std::string(key) + "` is blank", "say something");
  return text;
}

Result<std::optional<std::string>> Params::maybe_text(const char* key) const {
  constexpr std::size_t kMost = 4096;
  TENTH_TRY(std::optional<std::string> text, maybe_file(key));
  if (text && text->size() > kMost)
    return wrong_words("params", "the parameter `" + std::string(key) + "` is longer than 4096 bytes", "shorten it");
  return text;
}

Result<std::string> Params::file(const char* key) const {
  TENTH_TRY(const std::optional<std::string> text, maybe_file(key));
  if (!text) return wrong_type(key, "a text");
  return *text;
}

Result<std::optional<std::string>> Params::maybe_file(const char* key) const {
  const Json* const value = find(key);
  if (value == nullptr) return std::nullopt;
  if (!value->is_string()) return wrong_type(key, "a text");
  return value->get<std::string>();
}

Result<bool> Params::flag(const char* key) const {
  const Json* const value = find(key);
  if (value == nullptr) return false;
  if (!value->is_boolean()) return wrong_type(key, "true or false");
  return value->get<bool>();
}

Result<std::optional<std::int64_t>> Params::maybe_number(const char* key) const {
  const Json* const value = find(key);
  if (value == nullptr) return std::nullopt;
  if (!value->is_number_integer() || value->get<double>() > 9e15 || value->get<double>() < -9e15)
    return wrong_type(key, "a whole number");
  return value->get<std::int64_t>();
}

Result<std::vector<std::string>> Params::texts(const char* key) const {
  const Json* const value = find(key);
  std::vector<std::string> texts;
  if (value == nullptr) return texts;
  if (!value->is_array()) return wrong_type(key, "a list of texts");
  for (const Json& item : *value) {
    if (!item.is_string()) return wrong_type(key, "a list of texts");
    texts.push_back(item.get<std::string>());
  }
  return texts;
}

Result<std::optional<Length>> Params::maybe_length(const char* key, std::optional<Unit> bare) const {
  TENTH_TRY(const std::optional<std::string> typed, maybe_text(key));
  if (!typed) return std::nullopt;
  TENTH_TRY(const Length length, parse_length(*typed, bare));
  return length;
}

Result<std::optional<Length>> Params::maybe_amount(const char* key, std::optional<Unit> bare) const {
  TENTH_TRY(const std::optional<Length> length, maybe_length(key, bare));
  if (length && *length < Length())
    return wrong_words("length", "`--" + std::string(key) + "` is below zero", "give a length of zero or more");
  return length;
}

Result<std::optional<std::string>> Params::maybe_day(const char* key) const {
  TENTH_TRY(const std::optional<std::string> day, maybe_text(key));
  if (day && !is_day(*day)) return wrong_words("day", "`" + *day + "` is no day", "give a day such as 2026-03-01");
  return day;
}

Result<std::optional<Unit>> Params::unit(std::optional<Unit> otherwise) const {
  TENTH_TRY(const std::optional<std::string> word, maybe_text("unit"));
  if (!word) return otherwise;
  TENTH_TRY(const Unit unit, parse_unit(*word));
  return unit;
}

bool blank(std::string_view text) {
  return text.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

Result<std::string> reason_of(const Params& params) {
  TENTH_TRY(const std::optional<std::string> reason, params.maybe_text("reason"));
  if (!reason || blank(*reason))
    return wrong_words("reason", "a change to what stands needs a reason", "add --reason TEXT");
  return *reason;
}

Result<std::string> checked_name(const std::string& name, const std::string& of_what) {
  if (name.empty() || name.size() > 100)
    return refuse("name", "a name for " + of_what + " has 1 to 100 bytes, this one has " + std::to_string(name.size()),
                  "choose a shorter name");
  return name;
}

}  // namespace tenth
