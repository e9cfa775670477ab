# Writes the examples and profiles of the repository SOURCE as a table in C++ to OUTPUT.
file(GLOB files RELATIVE ${SOURCE} ${SOURCE}/examples/*.json ${SOURCE}/profiles/machines/*.json
     ${SOURCE}/profiles/probes/*.json)
set(text "namespace leeway {\nnamespace {\n\nconstexpr ShippedFile kShippedFiles[] = {\n")
foreach(file ${files})
  file(READ ${SOURCE}/${file} content)
  string(APPEND text "{\"${file}\", R\"json(${content})json\"},\n")
endforeach()
string(APPEND text "};\n\n}  // namespace\n}  // namespace leeway\n")
file(WRITE ${OUTPUT} "${text}")
