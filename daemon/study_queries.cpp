#include <algorithm>

#include "daemon/acts/lookup.hpp"
#include "daemon/params.hpp"
#include "daemon/queries.hpp"
#include "rules/nearest.hpp"
#include "schema/wire/chart_view.hpp"
#include "schema/wire/study_view.hpp"

namespace tenth {
namespace {

Result<const Gauge*> gauge_asked(const View& view, const Json& object) {
  TENTH_TRY(const std::string name, Params(object).text("gauge"));
  return gauge_named(view.bench, name);
}

/// A planned study of masters by this name; null: none.
const MasterStudy* master_study(const View& view, const std::string& name) {
  const auto found = view.bench.master_studies.find(name);
  return found == view.bench.master_studies.end() ? nullptr : &found->second;
}

}  // namespace

Result<Json> study(const View& view, const Json& object) {
  TENTH_TRY(const std::string name, Params(object).text("name"));
  const auto found = view.bench.studies.find(name);
  if (found != view.bench.studies.end()) return study_json(view.bench, found->second);
  if (const MasterStudy* const planned = master_study(view, name)) return master_study_json(view.bench, *planned);
  std::vector<std::string> names;
  for (const auto& [known, planned] : view.bench.studies) names.push_back(known);
  for (const auto& [known, planned] : view.bench.master_studies) names.push_back(known);
  const std::string near = nearest(name, names);
  return refuse("unknown_study", "there is no study `" + name + "`",
                near.empty() ? "`tenth study plan` begins one" : "did you mean `" + near + "`?");
}

Result<Json> study_list(const View& view, const Json&) {
  Json list = Json::array();
  for (const auto& [name, planned] : view.bench.studies)
    list.push_back({{"study", name},
                    {"engine", planned.engine},
                    {"gauge", planned.gauge},
                    {"feature", planned.feature},
                    {"of", planned.order.size()}});
  for (const auto& [name, planned] : view.bench.master_studies)
    list.push_back({{"study", name},
                    {"what", planned.linearity ? "linearity" : "bias"},
                    {"gauge", planned.gauge},
                    {"of", planned.order.size()}});
  return list;
}

Result<Json> study_bias(const View& view, const Json& object) {
  if (const MasterStudy* const planned = master_study(view, object.value("gauge", "")))
    return bias_json(view.bench, *planned);
  TENTH_TRY(const Gauge* const gauge, gauge_asked(view, object));
  return bias_json(view.bench, *gauge);
}

Result<Json> study_linearity(const View& view, const Json& object) {
  if (const MasterStudy* const planned = master_study(view, object.value("gauge", "")))
    return linearity_json(view.bench, *planned);
  TENTH_TRY(const Gauge* const gauge, gauge_asked(view, object));
  return linearity_json(view.bench, *gauge);
}

Result<Json> charts(const View& view, const Json& object) {
  TENTH_TRY(const Gauge* const gauge, gauge_asked(view, object));
  return charts_json(view.bench, *gauge);
}

}  // namespace tenth
