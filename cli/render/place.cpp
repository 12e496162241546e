#include "cli/render/place.hpp"

#include <ostream>

#include "cli/render/lines.hpp"
#include "cli/render/text.hpp"

namespace tenth::cli {

void show_place(Context& context, const Json& place) {
  context.world.out << place_line(context.ink, place) << '\n';
  for (const auto& gauge : texts(place, "ended"))
    context.world.out << context.ink(Tone::look, "? not set") << "    " << gauge
                      << " no longer waits for its master; repeat 'tenth master'\n";
}

}  // namespace tenth::cli
