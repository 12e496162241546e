#include "drivers/catalog.hpp"

#include <algorithm>
#include <map>

#include "drivers/bcd13/bcd13.hpp"
#include "drivers/bin24/bin24.hpp"
#include "drivers/line/line.hpp"
#include "drivers/modbus/modbus.hpp"

namespace tenth::drivers {

namespace {

using Make = std::unique_ptr<Decoder> (*)(const Profile&, std::optional<Unit>, Wire);

const std::map<Speaks, Make>& makers() {
  static const std::map<Speaks, Make> table = {{Speaks::line, make_line},   {Speaks::query, make_line},
                                               {Speaks::keys, make_line},   {Speaks::bcd13, make_bcd13},
                                               {Speaks::bin24, make_bin24}, {Speaks::modbus, make_modbus}};
  return table;
}

}  // namespace

std::unique_ptr<Decoder> make_decoder(const Profile& profile, std::optional<Unit> unit, Wire wire) {
  return makers().at(profile.speaks)(profile, unit, wire);
}

bool whole_by_length(const Profile& profile) {
  return profile.speaks == Speaks::bcd13 || profile.speaks == Speaks::bin24 || profile.speaks == Speaks::modbus;
}

const ShippedProfile* find_shipped(std::string_view name) {
  const auto all = shipped_profiles();
  const auto found =
      std::find_if(all.begin(), all.end(), [&](const ShippedProfile& each) { return each.name == name; });
  return found == all.end() ? nullptr : &*found;
}

}  // namespace tenth::drivers
