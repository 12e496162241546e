#pragma once

#include <string>

namespace tenth {

/// A door through which alerts leave: it takes one line of JSON and brings it where it belongs, in order, without
/// keeping the loop waiting.
class AlertSink {
 public:
  virtual ~AlertSink() = default;
  virtual void tell(std::string line) = 0;
};

}  // namespace tenth
