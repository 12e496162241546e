#pragma once

#include <spdlog/sinks/ostream_sink.h>
#include <spdlog/spdlog.h>

#include <memory>
#include <sstream>
#include <string>

namespace tenth {

/// What is logged while it lives.
class LogText {
 public:
  LogText() : before_(spdlog::default_logger()) {
    spdlog::set_default_logger(
        std::make_shared<spdlog::logger>("test", std::make_shared<spdlog::sinks::ostream_sink_mt>(text_)));
  }
  ~LogText() { spdlog::set_default_logger(before_); }
  LogText(const LogText&) = delete;
  LogText& operator=(const LogText&) = delete;

  std::string str() const { return text_.str(); }

 private:
  std::ostringstream text_;
  std::shared_ptr<spdlog::logger> before_;
};

}  // namespace tenth
