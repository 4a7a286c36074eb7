# Writes the default rule files into a C++ source: cmake -DOUTPUT=... -DFOLDER=... "-DFILES=a.yaml;b.yaml" -P embed.cmake
set(code "// Made by rules/embed.cmake from rules/*.yaml.\n#include \"rules/default_rules.hpp\"\n\nnamespace lidlift {\n\n")
string(APPEND code "std::vector<RuleText> default_rules() {\n    return {\n")
foreach(file IN LISTS FILES)
  file(READ "${FOLDER}/${file}" text)
  string(APPEND code "        {\"rules/${file}\", R\"lidlift(${text})lidlift\"},\n")
endforeach()
string(APPEND code "    };\n}\n\n}  // namespace lidlift\n")
file(WRITE "${OUTPUT}" "${code}")
