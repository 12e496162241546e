// The far end of a wire that answers: reads requests, gives answers, remembers what it was asked.
#pragma once

#include <functional>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

namespace acceptance {

// How long the first whole request in these bytes is; 0 while there is none.
using Cut = std::function<std::size_t(std::string_view)>;
Cut ended_by(std::string end);
Cut of_length(std::size_t length);

class Answering {
 public:
  // An empty answer is silence.
  using Answer = std::function<std::string(const std::string& request)>;

  // The wire stays its owner's, who ends this first.
  Answering(int wire, Cut cut, Answer answer);
  Answering(int wire, Cut cut, std::string always);
  ~Answering();
  Answering(const Answering&) = delete;
  Answering& operator=(const Answering&) = delete;

  void answer(Answer answer);
  void answer(std::string always);
  std::vector<std::string> asked() const;

 private:
  void serve(const std::stop_token& stop);

  int wire_;
  Cut cut_;
  mutable std::mutex mutex_;
  Answer answer_;
  std::vector<std::string> asked_;
  std::jthread thread_;
};

}  // namespace acceptance
