// The limits of rules/FORMAT.md section 1, each at its edge, and rule files written to do harm.
#include "engine/condition_grammar.hpp"
#include "engine/diagnosis.hpp"
#include "engine/rule_base_reader.hpp"
#include "engine/yaml_tree.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_models.hpp"
#include "tests/engine/short_rules.hpp"

#include <chrono>
#include <string>
#include <vector>

namespace engine_rule_base_limits_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

std::string repeated(const std::string& text, std::size_t times) {
    std::string result;
    result.reserve(text.size() * times);
    for (std::size_t i = 0; i < times; ++i) result += text;
    return result;
}

std::string padded_to(std::size_t bytes) { return "#" + std::string(bytes - 2, 'x') + "\n"; }

double seconds_for(const std::vector<RuleText>& files, std::vector<Complaint>& complaints) {
    const auto begin = std::chrono::steady_clock::now();
    complaints = read_rule_base(files).complaints;
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

/// What no input may do: more complaints than fit, or one that plays tricks on whoever reads it.
void check_decent(const std::vector<Complaint>& complaints) {
    CHECK(complaints.size() <= Complaints::limit + 1);
    for (const Complaint& complaint : complaints) {
        CHECK_FALSE(complaint.text.empty());
        CHECK((complaint.place.line >= 0 && complaint.place.column >= 0));
    }
}

std::string chain_of(int length) {
    Rules rules;
    rules.sign("start");
    for (int i = 0; i < length; ++i) {
        const std::string id = "c" + std::to_string(i);
        rules.conclusion(id, i + 1 == length ? "seen anyway: sometimes" : "");
        rules.rule("r" + std::to_string(i), i == 0 ? "start" : "c" + std::to_string(i - 1), id);
    }
    rules.cause("end", "signs: [{when: c" + std::to_string(length - 1) + ", seen: usually}]");
    return rules.text();
}

}  // namespace

TEST_CASE("a file of 1 MiB is read, one byte more is refused", "[limits]") {
    CHECK(complaints_of(padded_to(largest_file)).empty());
    CHECK(complaints_of(padded_to(largest_file + 1)) == "rules.yaml: the file is larger than 1048576 bytes (split it)\n");
}

TEST_CASE("eight files of 1 MiB are read, one byte more is refused", "[limits]") {
    std::vector<RuleText> files;
    for (int i = 0; i < 8; ++i) files.push_back({"f" + std::to_string(i), padded_to(largest_file)});
    CHECK(complaints_of(files).empty());
    files.push_back({"f8", "#"});
    CHECK(complaints_of(files) == "f8: the rule files together are larger than 8 MiB\n");
}

TEST_CASE("a text of 8 KiB is read, one byte more is refused", "[limits]") {
    const auto rules = [](std::size_t bytes) { return "conclusions:\n  wet: {means: " + std::string(bytes, 'w') + "}\n"; };
    CHECK(complaints_of(rules(longest_text)).empty());
    CHECK(complaints_of(rules(longest_text + 1)) == "rules.yaml:2:16: this text is longer than 8192 bytes (split it)\n");
}

TEST_CASE("a condition of 4 KiB is read, one byte more is refused", "[limits]") {
    const auto rules = [](std::size_t bytes) {
        return Rules().sign("rain").conclusion("wet").rule("r", "rain" + std::string(bytes - 4, ' '), "wet").text();
    };
    CHECK(complaints_of(rules(longest_condition)).empty());
    const std::string complaint = complaints_of(rules(longest_condition + 1));
    CHECK(complaint.find("expected at most 4096 bytes, found 4097") != std::string::npos);
}

TEST_CASE("a condition 50 levels deep is read, 51 are refused", "[limits]") {
    const auto rules = [](std::size_t levels) {
        return Rules()
            .sign("rain")
            .conclusion("wet")
            .rule("r", repeated("(", levels) + "rain" + repeated(")", levels), "wet")
            .text();
    };
    CHECK(complaints_of(rules(deepest_condition)).empty());
    CHECK(complaints_of(rules(deepest_condition + 1)).find("nested") != std::string::npos);
}

TEST_CASE("a file of 100,000 nodes is read, one more is refused", "[limits]") {
    // The map, its key and the list are three; what is too much is that no section is a list.
    const auto rules = [](std::size_t nodes) { return "signs: [" + repeated("a,", nodes - 4) + "a]\n"; };
    CHECK(complaints_of(rules(most_nodes)).find("more than 100000") == std::string::npos);
    CHECK(complaints_of(rules(most_nodes + 1)).find("the file holds more than 100000 texts, lists and maps") !=
          std::string::npos);
}

TEST_CASE("a rule base has 20,000 entries of a kind and 2,000 causes, not one more", "[limits]") {
    const auto conclusions = [](std::size_t from, std::size_t to) {
        std::string text = "conclusions:\n";
        for (std::size_t i = from; i < to; ++i) text += "  c" + std::to_string(i) + ": {means: m}\n";
        return text;
    };
    // Two files, since one holds fewer texts than that.
    std::vector<RuleText> files = {{"a", conclusions(0, most_entries / 2)}, {"b", conclusions(most_entries / 2, most_entries)}};
    CHECK(complaints_of(files).find("at most") == std::string::npos);
    files.push_back({"c", "conclusions:\n  last: {means: m}\n"});
    CHECK(complaints_of(files).find("c:2:3: a rule base holds at most 20000") != std::string::npos);

    const auto causes = [](std::size_t count) {
        std::string text =
            "signs:\n  s: {ask: Q, topic: moisture, effort: look, sources: [common_practice], seen anyway: "
            "sometimes}\ncauses:\n";
        for (std::size_t i = 0; i < count; ++i)
            text +=
                "  x" + std::to_string(i) +
                ": {name: N, how common: common, because: B, signs: [{when: s, seen: usually}], look again: 1 day, sources: "
                "[common_practice]}\n";
        return text;
    };
    CHECK(complaints_of(causes(most_causes)).empty());
    CHECK(complaints_of(causes(most_causes + 1)) == "rules.yaml:2004:3: a rule base holds at most 2000 causes\n");
}

TEST_CASE("a sign has 64 answers, not 65", "[limits]") {
    const auto rules = [](int count) {
        std::string answers;
        for (int i = 0; i < count; ++i) answers += (i > 0 ? ", " : "") + std::string("a") + std::to_string(i) + ": {means: a}";
        return Rules().sign("many", "several at once: yes, answers: {" + answers + "}").text();
    };
    CHECK(complaints_of(rules(64)).empty());
    CHECK(complaints_of(rules(65)).find("a sign can have 64 answers at most") != std::string::npos);
}

TEST_CASE("an id has 64 characters, not 65", "[limits]") {
    CHECK(complaints_of(Rules().conclusion(std::string(64, 'a')).text()).empty());
    CHECK(complaints_of(Rules().conclusion(std::string(65, 'a')).text()).find("cannot name a conclusion") != std::string::npos);
}

TEST_CASE("a chain of 5,000 rules is read, applied and explained", "[limits][hostile]") {
    const RuleBase base = base_of(chain_of(5000));
    CHECK(base.rule_order.size() == 5000);
    const Diagnosis yes = diagnosed(base, {"start=yes"});
    CHECK(yes.ranking.conclusions.truth.back() == Truth::yes);
    REQUIRE(yes.ranking.causes.size() == 1);
    const Diagnosis no = diagnosed(base, {"start=no"});
    CHECK(no.ranking.conclusions.truth.back() == Truth::no);
    CHECK(no.ranking.causes[0].chance < yes.ranking.causes[0].chance);
    CHECK(diagnosed(base, {"start=?"}).ranking.conclusions.truth.back() == Truth::unknown);
}

TEST_CASE("a chain of 5,000 rules that closes is one circle and one complaint", "[limits][hostile]") {
    std::string text = chain_of(5000);
    const std::string open = "when: \"start\"";
    text.replace(text.find(open), open.size(), "when: \"c4999\"");
    const auto complaints = read_rule_base(std::vector<RuleText>{{"rules.yaml", text}}).complaints;
    REQUIRE(complaints.size() == 1);
    CHECK(complaints[0].text.find("the rules go in a circle: c0 needs c4999 needs c4998") == 0);
}

TEST_CASE("100,000 unknown names end in seconds with fifty complaints and a count", "[limits][hostile]") {
    Rules rules;
    rules.sign("rain", "seen anyway: sometimes");
    std::string more = "signs: [{when: rain, seen: usually}], steps: [";
    for (int i = 0; i < 99'000; ++i) more += "s" + std::to_string(i) + ",";
    rules.cause("x", more + "last]");
    std::vector<Complaint> complaints;
    CHECK(seconds_for({{"rules.yaml", rules.text()}}, complaints) < 20);
    check_decent(complaints);
    REQUIRE(complaints.size() == Complaints::limit + 1);
    CHECK(complaints.back().text == "and 98951 more mistakes");
}

TEST_CASE("unknown names beside thousands of known ones end in seconds as well", "[limits][hostile]") {
    Rules rules;
    rules.sign("rain", "seen anyway: sometimes");
    for (int i = 0; i < 4000; ++i) rules.conclusion("conclusion_" + std::to_string(i));
    std::string unknown = "rain";
    for (int i = 0; i < 140; ++i) unknown += " or conclusion_x" + std::to_string(i);
    for (int i = 0; i < 100; ++i) rules.rule("r" + std::to_string(i), unknown, "conclusion_0");
    std::vector<Complaint> complaints;
    CHECK(seconds_for({{"rules.yaml", rules.text()}}, complaints) < 20);
    check_decent(complaints);
    REQUIRE(complaints.size() == Complaints::limit + 1);
    CHECK(complaints.back().text == "and 13950 more mistakes");
}

TEST_CASE("random bytes never crash the reader", "[limits][hostile]") {
    Dice dice(20261101);
    for (int i = 0; i < 500; ++i) {
        std::string text;
        const std::uint32_t length = dice.whole(0, 400);
        for (std::uint32_t k = 0; k < length; ++k) text += static_cast<char>(dice.whole(0, 255));
        CAPTURE(i);
        check_decent(read_rule_base(std::vector<RuleText>{{"random.yaml", text}}).complaints);
    }
}

TEST_CASE("random pieces of YAML and of the rule language never crash the reader", "[limits][hostile]") {
    const std::vector<std::string> pieces = {"signs", "rules", "causes", "steps", "answers",      ": ",   "- ",     "[",
                                             "]",     "{",     "}",      ", ",    "\n",           "\n  ", "\n    ", "&a",
                                             "*a",    "<<",    "!x",     "---\n", "yes",          "when", "then",   "a",
                                             "b",     "not ",  "(",      ")",     " and ",        "'",    "\"",     "|",
                                             ">",     "#",     "%",      "?",     "earlier entry"};
    Dice dice(20261102);
    for (int i = 0; i < 2000; ++i) {
        std::string text;
        const std::uint32_t length = dice.whole(1, 40);
        for (std::uint32_t k = 0; k < length; ++k) text += pieces[dice.whole(0, static_cast<std::uint32_t>(pieces.size()) - 1)];
        CAPTURE(text);
        check_decent(read_rule_base(std::vector<RuleText>{{"random.yaml", text}}).complaints);
    }
}

namespace {

/// One random slip of the pen: a byte changed, dropped or doubled, a line dropped, doubled or moved, a word put elsewhere.
std::string mutated(std::string text, Dice& dice) {
    const auto size = static_cast<std::uint32_t>(text.size());
    const std::uint32_t at = dice.whole(0, size - 1);
    const std::size_t line_begin = text.rfind('\n', at) == std::string::npos ? 0 : text.rfind('\n', at) + 1;
    const std::size_t line_end = std::min(text.find('\n', at), text.size() - 1) + 1;
    const std::string line = text.substr(line_begin, line_end - line_begin);
    switch (dice.whole(0, 6)) {
        case 0:
            text[at] = static_cast<char>(dice.whole(0, 255));
            break;
        case 1:
            text.erase(at, dice.whole(1, 8));
            break;
        case 2:
            text.insert(at, text.substr(dice.whole(0, size - 1), dice.whole(1, 30)));
            break;
        case 3:
            text.erase(line_begin, line_end - line_begin);
            break;
        case 4:
            text.insert(line_begin, line);
            break;
        case 5:
            text.insert(dice.whole(0, size - 1), line);
            break;
        default:
            text[at] = " :,{}[]'\"\n-#&*!|>%@`"[dice.whole(0, 20)];
            break;
    }
    return text;
}

}  // namespace

TEST_CASE("700 random slips in the default rule files never crash", "[limits][hostile]") {
    const std::vector<RuleText> files = default_rules();
    const std::vector<std::string> words = {"smell_rotten=strong", "squeeze=stream", "worm_place=up_walls_lid"};
    Dice dice(20261103);
    int refused = 0;
    int used = 0;
    for (int i = 0; i < 700; ++i) {
        std::vector<RuleText> changed = files;
        const std::uint32_t which = dice.whole(0, static_cast<std::uint32_t>(files.size()) - 1);
        const std::uint32_t slips = dice.whole(1, 3);
        for (std::uint32_t k = 0; k < slips; ++k) changed[which].text = mutated(changed[which].text, dice);
        // Ten in a hundred with all files, so that what still reads is used as well; the others alone, for speed.
        const bool whole = i % 10 == 0;
        const RuleBaseReading reading = read_rule_base(whole ? changed : std::vector<RuleText>{changed[which]});
        CAPTURE(i, changed[which].name);
        check_decent(reading.complaints);
        if (!reading.complaints.empty()) ++refused;
        if (!whole || !reading.complaints.empty()) continue;
        ++used;
        Told told;
        for (const std::string& word : words) (void)hear_argument(told, reading.rule_base, word);
        CHECK(diagnose(Ranker(reading.rule_base), told).ranking.nothing_listed >= 0);
    }
    CHECK(refused > 250);
    CHECK(used > 3);
}

}  // namespace engine_rule_base_limits_test
