#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "schema/json/escape.hpp"
#include "schema/json/json.hpp"

namespace tenth {
namespace {

constexpr std::size_t kMostDepth = 32;

/// Builds the value while the library's parser reads, and stops it (by returning false) with `error` set.
class Builder : public nlohmann::json_sax<Json> {
 public:
  Json value;
  std::string error;

  bool null() override { return put(nullptr); }
  bool boolean(bool is) override { return put(is); }
  bool number_integer(number_integer_t number) override { return put(number); }
  bool number_unsigned(number_unsigned_t number) override { return put(number); }
  bool number_float(number_float_t number, const string_t&) override { return put(number); }
  bool string(string_t& text) override { return put(std::move(text)); }
  bool binary(binary_t&) override { return false; }
  bool start_object(std::size_t) override { return open(Json::object()); }
  bool start_array(std::size_t) override { return open(Json::array()); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

  bool key(string_t& name) override {
    const auto [member, added] = open_.back()->emplace(name, nullptr);
    member_ = &*member;
    if (!added) error = "the name '" + shortened(name) + "' stands twice in one object";
    return added;
  }

  bool parse_error(std::size_t, const std::string&, const Json::exception& exception) override {
    // "[json.exception...] parse error at line 1, column 2: what - more; last read: '...'": the last part may hold
    // anything, and any length of it.
    std::string text = exception.what();
    text.erase(0, text.find("] ") + 2);
    text.erase(std::min(text.find("; last read"), text.size()));
    error = shortened(text);
    return false;
  }

 private:
  static std::string shortened(const std::string& text) { return printable(text.substr(0, 200)); }

  /// Where the value belongs: the root, the end of an array, or the member whose name was read last.
  Json* place(Json&& child) {
    if (open_.empty()) return &(value = std::move(child));
    if (open_.back()->is_array()) return &open_.back()->emplace_back(std::move(child));
    return &(*member_ = std::move(child));
  }

  bool put(Json child) {
    place(std::move(child));
    return true;
  }

  bool open(Json child) {
    if (open_.size() == kMostDepth) {
      error = "it is nested deeper than " + std::to_string(kMostDepth);
      return false;
    }
    open_.push_back(place(std::move(child)));
    return true;
  }

  bool close() {
    open_.pop_back();
    return true;
  }

  std::vector<Json*> open_;  ///< arrays and objects that are not yet ended; stable, as only the innermost one grows
  Json* member_ = nullptr;   ///< of the innermost object: where the next value goes
};

auto refuse_text(const std::string& why) {
  return refuse("json", "this is no JSON that Tenth takes: " + why, "send one JSON value in UTF-8 (RFC 8259)");
}

}  // namespace

Result<Json> parse_json(std::string_view text, std::size_t most_bytes) {
  if (text.size() > most_bytes) {
    return refuse_text("it has " + std::to_string(text.size()) + " bytes, more than " + std::to_string(most_bytes));
  }
  // The library's parser takes a zero byte for the end of the text and would not see what follows.
  if (text.find('\0') != std::string_view::npos) return refuse_text("it holds a zero byte");
  Builder builder;
  if (!Json::sax_parse(text, &builder)) return refuse_text(builder.error);
  return std::move(builder.value);
}

}  // namespace tenth
