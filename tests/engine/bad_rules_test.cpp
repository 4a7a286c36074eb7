// Every file of tests/bad_rules with the complaints that stand beside it, word for word.
//
// NAME.yaml, or a folder NAME whose files are read in the order of their names, has its complaints in NAME.expected.
#include "engine/rule_base_reader.hpp"
#include "tests/catch.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace engine_bad_rules_test {

using namespace lidlift;
namespace fs = std::filesystem;

namespace {

const fs::path folder = fs::path(LIDLIFT_TESTS_FOLDER) / "bad_rules";

std::string contents(const fs::path& path) {
    std::ifstream stream(path, std::ios::binary);
    if (!stream) FAIL("cannot read " << path.string());
    return {std::istreambuf_iterator<char>(stream), {}};
}

std::vector<fs::path> sorted_entries(const fs::path& path) {
    std::vector<fs::path> entries;
    for (const auto& entry : fs::directory_iterator(path)) entries.push_back(entry.path());
    std::sort(entries.begin(), entries.end());
    return entries;
}

/// The rule files of every example, by its name.
std::map<std::string, std::vector<RuleText>> examples() {
    std::map<std::string, std::vector<RuleText>> result;
    for (const fs::path& path : sorted_entries(folder)) {
        if (path.extension() == ".yaml") result[path.stem().string()] = {{path.filename().string(), contents(path)}};
        if (!fs::is_directory(path)) continue;
        for (const fs::path& file : sorted_entries(path))
            result[path.filename().string()].push_back({file.filename().string(), contents(file)});
    }
    return result;
}

std::string complaints(const std::vector<RuleText>& files) {
    std::string text;
    for (const Complaint& complaint : read_rule_base(files).complaints) text += to_text(complaint) + "\n";
    return text;
}

}  // namespace

TEST_CASE("every bad rule file gets exactly the complaints beside it", "[rule_base_reader][bad_rules]") {
    const auto all = examples();
    REQUIRE(all.size() > 50);
    for (const auto& [name, files] : all) {
        CAPTURE(name);
        const std::string expected = contents(folder / (name + ".expected"));
        CHECK_FALSE(expected.empty());
        CHECK(complaints(files) == expected);
    }
}

TEST_CASE("the folder of bad rule files holds nothing that no test reads", "[rule_base_reader][bad_rules]") {
    const auto all = examples();
    std::set<std::string> expected = {};
    for (const auto& [name, files] : all) {
        const bool alone = files.size() == 1 && files.front().name == name + ".yaml";
        expected.insert(alone ? name + ".yaml" : name);
        expected.insert(name + ".expected");
    }
    for (const fs::path& path : sorted_entries(folder)) {
        CAPTURE(path.string());
        CHECK(expected.count(path.filename().string()) == 1);
        if (fs::is_directory(path))
            for (const fs::path& file : sorted_entries(path)) CHECK(file.extension() == ".yaml");
    }
}

TEST_CASE("the order of the files changes no complaint about a single file", "[rule_base_reader][bad_rules]") {
    // Every example alone, and with a sound file before or after it.
    const RuleText sound{"zz_sound.yaml", "sources:\n  other: {title: Other, kind: trade, standing: read}\n"};
    for (const auto& [name, files] : examples()) {
        if (files.size() > 1) continue;
        CAPTURE(name);
        const std::string alone = complaints(files);
        CHECK(complaints({sound, files.front()}) == alone);
        CHECK(complaints({files.front(), sound}) == alone);
    }
}

}  // namespace engine_bad_rules_test
