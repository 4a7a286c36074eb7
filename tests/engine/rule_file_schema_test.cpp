// The words of rules/rule-files.schema.json are those of the engine. Its keys and shapes are checked by tests/schema.
#include "engine/condition_grammar.hpp"
#include "engine/quantity.hpp"
#include "engine/rule_base.hpp"
#include "engine/rule_base_reader.hpp"
#include "engine/words.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"

#include <algorithm>
#include <fstream>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace engine_rule_file_schema_test {

using namespace lidlift;
using namespace lidlift::test;
using nlohmann::json;

namespace {

using Words = std::vector<std::string>;

const json& schema() {
    static const json parsed = [] {
        std::ifstream stream(LIDLIFT_TESTS_FOLDER "/../rules/rule-files.schema.json");
        return json::parse(stream);
    }();
    return parsed;
}

Words words_at(const std::string& pointer) { return schema().at(json::json_pointer(pointer)).get<Words>(); }

Words with(Words words, const std::string& more) {
    words.push_back(more);
    return words;
}

Words pushes() {
    Words words;
    for (const std::string& what : pushed_words())
        for (const char* way : {" up", " down"}) words.push_back(what + way);
    return words;
}

}  // namespace

TEST_CASE("the schema's words are the engine's", "[schema]") {
    Words seen_by_causes = frequency_words();
    std::erase(seen_by_causes, "practically never");
    Words groups = step_kind_words();
    for (const std::string& push : pushes()) groups.push_back(push);
    const std::vector<std::pair<std::string, Words>> expected = {
        {"/definitions/sign/properties/seen anyway/enum", frequency_words()},
        {"/definitions/answer/properties/seen anyway/enum", with(frequency_words(), "the rest")},
        {"/definitions/band/properties/seen anyway/enum", with(frequency_words(), "the rest")},
        {"/definitions/conclusion/properties/seen anyway/enum", frequency_words()},
        {"/definitions/sign/properties/effort/enum", effort_words()},
        {"/definitions/sign/properties/measured in/enum", unit_names()},
        {"/definitions/link/properties/seen/enum", seen_by_causes},
        {"/definitions/link/properties/points/enum", odds_words()},
        {"/definitions/circumstance/properties/points/enum", odds_words()},
        {"/definitions/cause/properties/how common/enum", commonness_words()},
        {"/definitions/step/properties/when/enum", when_words()},
        {"/definitions/step/properties/kind/enum", step_kind_words()},
        {"/definitions/push/enum", pushes()},
        {"/definitions/step_group/anyOf/0/enum", groups},
        {"/definitions/caution/properties/level/enum", level_words()},
    };
    for (const auto& [pointer, words] : expected) {
        CAPTURE(pointer);
        CHECK(words_at(pointer) == words);
    }
    for (const std::string& word : words_at("/definitions/id/not/enum")) {
        CAPTURE(word);
        CHECK(is_word_of_the_language(word));
    }
    CHECK(words_at("/definitions/id/not/enum").size() == 15);
}

TEST_CASE("every word of the schema that the reader keeps to itself is read", "[schema]") {
    for (const std::string& kind : words_at("/definitions/source/properties/kind/enum"))
        CHECK(complaints_of("sources: {a: {title: T, kind: " + kind + ", standing: read}}") == "");
    for (const std::string& standing : words_at("/definitions/source/properties/standing/enum"))
        CHECK(complaints_of("sources: {a: {title: T, kind: trade, standing: " + standing + "}}") == "");
    for (const std::string& word : words_at("/definitions/sign/properties/hard to tell/enum"))
        CHECK(complaints_of(Rules().sign("a", "hard to tell: " + word).text()) == "");
    for (const std::string& word : words_at("/definitions/step/properties/if wrong/enum"))
        CHECK(complaints_of(Rules().step("a", "if wrong: " + word).text()) == "");
}

TEST_CASE("the reader lists no word that the schema lacks", "[schema]") {
    // A word that is refused is answered with the words that would do.
    const auto listed = [](const std::string& complaint) {
        Words words;
        const std::string mark = "is not one of: ";
        std::string list = complaint.substr(complaint.find(mark) + mark.size());
        list = list.substr(0, list.find_first_of("(\n"));
        for (std::size_t at = list.find(" or "); at != std::string::npos; at = list.find(" or ")) list.replace(at, 4, ", ");
        for (std::size_t begin = 0; begin < list.size();) {
            const std::size_t end = std::min(list.find(", ", begin), list.size());
            std::string word = list.substr(begin, end - begin);
            while (!word.empty() && word.back() == ' ') word.pop_back();
            words.push_back(word);
            begin = end + 2;
        }
        return words;
    };
    CHECK(listed(complaints_of("sources: {a: {title: T, kind: qqqqqqqq, standing: read}}")) ==
          words_at("/definitions/source/properties/kind/enum"));
    CHECK(listed(complaints_of("sources: {a: {title: T, kind: trade, standing: qqqqqqqq}}")) ==
          words_at("/definitions/source/properties/standing/enum"));
    CHECK(listed(complaints_of(Rules().sign("a", "hard to tell: qqqqqqqq").text())) ==
          words_at("/definitions/sign/properties/hard to tell/enum"));
    CHECK(listed(complaints_of(Rules().step("a", "if wrong: qqqqqqqq").text())) ==
          words_at("/definitions/step/properties/if wrong/enum"));
}

}  // namespace engine_rule_file_schema_test
