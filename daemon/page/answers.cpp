#include "daemon/page/answers.hpp"

#include <boost/beast/http/field.hpp>
#include <boost/beast/http/verb.hpp>

namespace tenth {

namespace http = boost::beast::http;

void put_safety(http::fields& fields) {
  fields.set("Content-Security-Policy",
             "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; img-src 'self'; "
             "base-uri 'none'; form-action 'none'; frame-ancestors 'none'");
  fields.set("X-Content-Type-Options", "nosniff");
  fields.set("Referrer-Policy", "no-referrer");
  fields.set("Cross-Origin-Resource-Policy", "same-origin");
  fields.set(http::field::cache_control, "no-store");
}

PageAnswer answer_of(const PageRequest& request, http::status status, std::string_view type, std::string body) {
  PageAnswer answer(status, request.version());
  put_safety(answer);
  answer.set(http::field::content_type, type);
  answer.content_length(body.size());
  if (status == http::status::method_not_allowed) answer.set(http::field::allow, "GET, HEAD, POST");
  if (status == http::status::unauthorized) answer.set(http::field::www_authenticate, "Bearer");
  if (request.method() != http::verb::head) answer.body() = std::move(body);
  answer.keep_alive(request.keep_alive());
  return answer;
}

PageAnswer refused_answer(const PageRequest& request, http::status status, const Refusal& refusal) {
  const Json json = {{"code", refusal.code}, {"message", refusal.message}, {"do", refusal.remedy}};
  return answer_of(request, status, "application/json", canonical(json) + "\n");
}

std::string event_text(const Json& event, std::int64_t seq) {
  const std::string id = seq != 0 ? "id: " + std::to_string(seq) + "\n" : "";
  return id + "data: " + canonical(event) + "\n\n";
}

}  // namespace tenth
