#include "cli/help_format.hpp"

#include <string>

namespace tenth::cli {

std::string HelpFormat::make_option_opts(const CLI::Option* option) const {
  if (option->get_positional()) return {};
  const std::string type = option->get_type_size() == 0 ? std::string() : option->get_type_name();
  const std::string standard = option->get_default_str().empty() ? "" : "=" + option->get_default_str();
  return (type.empty() ? "" : " " + type) + standard + (option->get_required() ? " (required)" : "");
}

std::string HelpFormat::make_option_usage(const CLI::Option* option) const {
  const bool several = option->get_expected_max() > 1;
  const std::string name = option->get_name(true) + (several ? "..." : "");
  return option->get_required() ? name : "[" + name + "]";
}

}  // namespace tenth::cli
