#include <ostream>

#include "cli/command.hpp"
#include "cli/render/text.hpp"

namespace tenth::cli {
namespace {

void show_page(Context& context, const Json& page) {
  context.world.out << text(page, "url") << '\n';
}

Action declare_page(CLI::App&) {
  return [](Context& context) { return context.ask("page", Json::object(), show_page); };
}

}  // namespace

std::vector<Command> page_commands() {
  return {{"page",
           "Print the address of the bench page, with its token: keep that to yourself",
           {"tenth page"},
           declare_page}};
}

}  // namespace tenth::cli
