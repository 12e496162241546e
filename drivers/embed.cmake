# Writes OUTPUT, a source file that holds every TOML file of FOLDER as text: FUNCTION of HEADER gives them as TYPE {name, text}.
file(GLOB files ${FOLDER}/*.toml)
list(SORT files)
set(rows "")
foreach(file ${files})
  get_filename_component(name ${file} NAME_WE)
  file(READ ${file} text)
  string(APPEND rows "    {\"${name}\", R\"toml(${text})toml\"},\n")
endforeach()
file(WRITE ${OUTPUT} "#include \"${HEADER}\"

namespace ${NAMESPACE} {

std::span<const ${TYPE}> ${FUNCTION}() {
  static constexpr ${TYPE} all[] = {
${rows}  };
  return all;
}

}  // namespace ${NAMESPACE}
")
