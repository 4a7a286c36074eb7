# Writes files of this folder into a C++ source, as one function that returns their names and texts:
# cmake -DOUTPUT=... -DFOLDER=... -DFUNCTION=default_rules "-DFILES=a.yaml;b.yaml" -P embed.cmake
set(code "// Made by rules/embed.cmake.\n#include \"rules/${FUNCTION}.hpp\"\n\nnamespace lidlift {\n\n")
string(APPEND code "std::vector<RuleText> ${FUNCTION}() {\n    return {\n")
foreach(file IN LISTS FILES)
  file(READ "${FOLDER}/${file}" text)
  string(APPEND code "        {\"rules/${file}\", R\"lidlift(${text})lidlift\"},\n")
endforeach()
string(APPEND code "    };\n}\n\n}  // namespace lidlift\n")
file(WRITE "${OUTPUT}" "${code}")
