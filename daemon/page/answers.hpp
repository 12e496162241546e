#pragma once

#include <boost/beast/http/message.hpp>
#include <boost/beast/http/string_body.hpp>
#include <string>
#include <string_view>

#include "daemon/page/gate.hpp"
#include "rules/result.hpp"
#include "schema/json/json.hpp"

namespace tenth {

using PageAnswer = boost::beast::http::response<boost::beast::http::string_body>;

/// One file of the page, built into the program (daemon/page/*.html, *.css, *.js, *.svg).
struct Asset {
  std::string_view path, type, text;
};
/// The asset that is asked for by this path; null: there is none.
const Asset* asset_at(std::string_view path);

/// What stands above every answer: no script, style or picture but our own, no frame, no cache, no referrer, no
/// guessing of types.
void put_safety(boost::beast::http::fields& fields);

/// An answer to this request, whole; to HEAD without its body.
PageAnswer answer_of(const PageRequest& request, boost::beast::http::status status, std::string_view type,
                     std::string body);
/// `code, message, do` as a refusal of the command line has them.
PageAnswer refused_answer(const PageRequest& request, boost::beast::http::status status, const Refusal& refusal);

/// An event of the stream: `seq` 0 belongs to no entry and has no id.
std::string event_text(const Json& event, std::int64_t seq);

}  // namespace tenth
