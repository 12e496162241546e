# Writes OUTPUT, a source file that holds the page's FILES as text.
set(types_html "text/html; charset=utf-8")
set(types_css "text/css; charset=utf-8")
set(types_js "text/javascript; charset=utf-8")
set(types_svg "image/svg+xml")
set(rows "")
foreach(file ${FILES})
  file(READ ${file} text)
  string(REGEX REPLACE ".*\\." "" extension ${file})
  get_filename_component(name ${file} NAME)
  set(path "/${name}")
  if(name STREQUAL "page.html")
    set(path "/")
  endif()
  string(APPEND rows "    {\"${path}\", \"${types_${extension}}\", R\"asset(${text})asset\"},\n")
endforeach()
file(WRITE ${OUTPUT} "#include <algorithm>
#include <array>

#include \"daemon/page/answers.hpp\"

namespace tenth {

const Asset* asset_at(std::string_view path) {
  static constexpr auto kAll = std::to_array<Asset>({
${rows}  });
  const auto found = std::ranges::find(kAll, path, &Asset::path);
  return found == kAll.end() ? nullptr : &*found;
}

}  // namespace tenth
")
