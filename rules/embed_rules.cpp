// Run by the build: rule files -> a C++ source that holds their rule base, ready for use, as default_rules_image().
// lidlift_embed_rules SOURCE FOLDER FILE...
#include "engine/rule_base_image.hpp"
#include "engine/rule_base_reader.hpp"

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace {

using namespace lidlift;

/// One string literal a line; whatever is not plain in a literal is written by its number.
std::string as_literals(std::string_view bytes) {
    constexpr std::size_t bytes_a_line = 96;
    std::string code;
    for (std::size_t begin = 0; begin < bytes.size(); begin += bytes_a_line) {
        code += "\n    \"";
        for (const char byte : bytes.substr(begin, bytes_a_line)) {
            const bool plain = byte >= ' ' && byte <= '~' && byte != '"' && byte != '\\' && byte != '?';
            char octal[5];
            std::snprintf(octal, sizeof octal, "\\%03o", static_cast<unsigned>(static_cast<unsigned char>(byte)));
            code += plain ? std::string(1, byte) : octal;
        }
        code += '"';
    }
    return code;
}

int stop(const std::string& why) {
    std::fprintf(stderr, "lidlift_embed_rules: %s\n", why.c_str());
    return 1;
}

}  // namespace

int main(int argc, char** argv) {
    if (argc < 4) return stop("say: lidlift_embed_rules SOURCE FOLDER FILE...");
    const std::filesystem::path folder = argv[2];
    std::vector<RuleText> files;
    for (int i = 3; i < argc; ++i) {
        const std::ifstream file(folder / argv[i], std::ios::binary);
        std::ostringstream text;
        if (!file || !(text << file.rdbuf())) return stop("cannot read " + (folder / argv[i]).string());
        files.push_back({std::string("rules/") + argv[i], text.str()});
    }

    const RuleBaseReading reading = read_rule_base(files);
    for (const Complaint& complaint : reading.complaints) stop(to_text(complaint));
    if (!reading.complaints.empty()) return 1;
    const std::string image = to_image(reading.rule_base);
    const Outcome<RuleBase> again = from_image(image);
    if (!again) return stop(again.fault().text);
    if (*again != reading.rule_base) return stop("the rule base differs from the one read back from its image");

    std::ofstream source(argv[1], std::ios::binary | std::ios::trunc);
    source << "// Made by lidlift_embed_rules.\n#include \"rules/default_rules.hpp\"\n\n"
              "namespace lidlift {\nnamespace {\n\nconstexpr char image[] ="
           << as_literals(image)
           << ";\n\n}  // namespace\n\nstd::string_view default_rules_image() { return {image, sizeof image - 1}; }\n\n"
              "Outcome<RuleBase> default_rule_base(Extent extent) { return from_image(default_rules_image(), extent); }\n\n}  "
              "// namespace lidlift\n";
    source.flush();
    return source ? 0 : stop(std::string("cannot write ") + argv[1]);
}
