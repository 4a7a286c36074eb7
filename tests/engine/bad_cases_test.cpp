// Every file of tests/bad_cases with the complaints that stand beside it, word for word; a folder is read as several files.
#include "tests/catch.hpp"
#include "tests/engine/small_cases.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <set>
#include <string>
#include <vector>

namespace engine_bad_cases_test {

using namespace lidlift;
using namespace lidlift::test;
namespace fs = std::filesystem;

namespace {

const fs::path folder = fs::path(LIDLIFT_TESTS_FOLDER) / "bad_cases";

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

}  // namespace

TEST_CASE("every bad case file gets exactly the complaints beside it", "[cases][bad_cases]") {
    const auto all = examples();
    REQUIRE(all.size() >= 11);
    for (const auto& [name, files] : all) {
        CAPTURE(name);
        const std::string expected = contents(folder / (name + ".expected"));
        CHECK_FALSE(expected.empty());
        CHECK(case_complaints(small_base(), files) == expected);
    }
}

TEST_CASE("the folder of bad case files holds nothing that no test reads", "[cases][bad_cases]") {
    std::set<std::string> expected;
    for (const auto& [name, files] : examples()) {
        expected.insert(name + ".expected");
        expected.insert(fs::is_directory(folder / name) ? name : name + ".yaml");
    }
    for (const fs::path& path : sorted_entries(folder)) {
        CAPTURE(path.string());
        CHECK(expected.count(path.filename().string()) == 1);
    }
}

}  // namespace engine_bad_cases_test
