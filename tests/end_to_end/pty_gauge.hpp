// A gauge's cable as the daemon sees it: the far end of a pseudo-terminal under a path that stays the same.
#pragma once

#include <chrono>
#include <filesystem>
#include <string>
#include <string_view>

namespace acceptance {

class PtyGauge {
 public:
  explicit PtyGauge(std::filesystem::path link);
  ~PtyGauge();
  PtyGauge(const PtyGauge&) = delete;
  PtyGauge& operator=(const PtyGauge&) = delete;

  const std::filesystem::path& port() const { return link_; }
  // The device behind the link.
  const std::string& device() const { return device_; }

  void send(std::string_view bytes);
  // What was written to the gauge within this time.
  std::string heard(std::chrono::milliseconds wait) const;
  int far_end() const { return master_; }
  // Pulls the cable: the device vanishes, and the path with it.
  void unplug();
  // Puts it back: another device under the same path.
  void plug();

 private:
  std::filesystem::path link_;
  std::string device_;
  int master_ = -1;
};

}  // namespace acceptance
