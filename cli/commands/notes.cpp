#include <filesystem>
#include <memory>
#include <ostream>

#include "cli/command.hpp"
#include "cli/files.hpp"
#include "cli/render/lines.hpp"
#include "cli/render/mark.hpp"
#include "cli/render/text.hpp"
#include "cli/words.hpp"
#include "schema/store/hash.hpp"

namespace tenth::cli {
namespace {

struct Words {
  std::string text, gauge;
};

void show_note(Context& context, const Json& note) {
  context.world.out << note_line(context.ink, note) << '\n';
}

Action declare_note(CLI::App& app) {
  auto words = std::make_shared<Words>();
  app.add_option("TEXT", words->text, "What is to be remembered")->required()->check(not_blank());
  app.add_option("--gauge", words->gauge, "About the place of this gauge")->type_name("G");
  return [words](Context& context) {
    return context.ask("note", {{"text", words->text}, {"gauge", given(words->gauge)}}, show_note);
  };
}

void show_attached(Context& context, const Json& attached) {
  context.world.out << inked(context.ink, {"*", "attached", Tone::plain}) << text(attached, "file") << ", "
                    << text(attached, "bytes") << " bytes: the record names it by its SHA-256; keep the file itself"
                    << context.ink(Tone::quiet, "  #" + text(attached, "seq")) << '\n';
}

Result<Exit> attach(const std::string& path, Context& context) {
  constexpr std::size_t kMostBytes = std::size_t{1} << 30;
  TENTH_TRY(const std::string bytes, read_text(path, kMostBytes));
  const Json params = {{"file", std::filesystem::path(path).filename().string()},
                       {"bytes", bytes.size()},
                       {"sha256", hex(sha256(bytes))}};
  return context.ask("attach", params, show_attached);
}

Action declare_attach(CLI::App& app) {
  auto path = std::make_shared<std::string>();
  app.add_option("FILE", *path, "A photograph, a certificate")->required();
  return [path](Context& context) { return attach(*path, context); };
}

}  // namespace

std::vector<Command> note_commands() {
  return {{"note",
           "Write something down about the engine, at the place that stands",
           {"tenth note 'scratch below the ring turn, by the oil hole'", "tenth note 'block at 24 C since noon'"},
           declare_note},
          {"attach",
           "Name a file in the engine's record by what is in it",
           {"tenth attach main-3.jpg", "tenth attach certificate-1188.pdf"},
           declare_attach}};
}

}  // namespace tenth::cli
