# Writes OUTPUT, a source file that holds every drivers/profiles/*.toml as text.
file(GLOB profiles ${PROFILES}/*.toml)
list(SORT profiles)
set(rows "")
foreach(profile ${profiles})
  get_filename_component(name ${profile} NAME_WE)
  file(READ ${profile} text)
  string(APPEND rows "    {\"${name}\", R\"toml(${text})toml\"},\n")
endforeach()
file(WRITE ${OUTPUT} "#include \"drivers/catalog.hpp\"

namespace tenth::drivers {

std::span<const ShippedProfile> shipped_profiles() {
  static constexpr ShippedProfile all[] = {
${rows}  };
  return all;
}

}  // namespace tenth::drivers
")
