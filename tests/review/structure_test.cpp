// What belongs together in a rule base, and what a rule base answers to advice.
#include "engine/review/structure.hpp"

#include "engine/review/reviewed.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/review/review_files.hpp"

namespace review_structure_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

std::vector<ReviewFinding> structure_of(const RuleBase& base, std::string_view kind) {
    std::vector<ReviewFinding> findings;
    review_structure(base, findings);
    return of_kind(std::move(findings), kind);
}

using Ids = std::vector<std::string>;
std::vector<Ids> about(const std::vector<ReviewFinding>& findings) {
    std::vector<Ids> result;
    for (const ReviewFinding& finding : findings) result.push_back(finding.about);
    return result;
}

Step step_that_says(const std::string& say, const std::string& amount = {}) {
    Step step;
    step.say = say;
    step.amount = amount;
    step.kind = StepKind::air;
    return step;
}

}  // namespace

TEST_CASE("a caution is called for by beginnings of words, in a row where they are several", "[review][structure]") {
    const auto called = [](const std::string& word, const std::string& text) {
        const bool in_text = !calls_for({{}, {}, {word}}, step_that_says(text)).empty();
        const bool in_amount = !calls_for({{}, {}, {word}}, step_that_says("Do it.", text)).empty();
        CHECK(in_text == in_amount);
        return in_text;
    };
    CHECK(called("shred", "Use the Shredder."));
    CHECK(called("shred", "shredded card"));
    CHECK_FALSE(called("shred", "unshredded card"));
    CHECK_FALSE(called("shredder", "shredded card"));
    CHECK(called("empty the sump", "Empty the sump, now."));
    CHECK(called("empty the sump", "Empty - the sumps"));
    CHECK_FALSE(called("empty the sump", "Empty the tray and the sump"));
    CHECK_FALSE(called("empty the sump", "Empty the"));
    CHECK(called("käse", "Käsereste, käserei"));
    CHECK_FALSE(called("...", "Nothing but points..."));
    CHECK_FALSE(called("lime", ""));
}

TEST_CASE("a caution is called for by kinds and pushes", "[review][structure]") {
    Step step = step_that_says("Dust it.");
    step.kind = StepKind::lime;
    step.pushes = {{Pushed::ph, true}};
    CHECK(calls_for({{StepKind::water, StepKind::lime}, {}, {}}, step) == "is of kind lime");
    CHECK(calls_for({{}, {{Pushed::ph, true}}, {}}, step) == "pushes ph up");
    CHECK(calls_for({{}, {{Pushed::ph, false}}, {}}, step).empty());
    CHECK(calls_for({{StepKind::water}, {}, {"soak"}}, step).empty());
    CHECK(calls_for({}, step).empty());
}

TEST_CASE("a caution that a step carries through its causes only is missing all the same", "[review][structure]") {
    const auto missing = [](const std::string& step, const std::string& cause) {
        return about(structure_of(Rules()
                                      .sign("a", "seen anyway: sometimes")
                                      .caution("K1", "called for by: {kinds: lime}")
                                      .step("s", "kind: lime" + step)
                                      .cause("c", "signs: [{when: a, seen: usually}], steps: [s]" + cause)
                                      .base(),
                                  "hazard_without_caution"));
    };
    CHECK(missing("", ", cautions: [K1]") == std::vector<Ids>{{"s", "K1"}});
    CHECK(missing(", cautions: [K1]", "").empty());
}

TEST_CASE("a later file adds to what calls for a caution", "[review][structure]") {
    const auto base = base_of(std::vector<RuleText>{
        {"one.yaml", Rules().caution("K1", "called for by: {words: [shredder]}").text()},
        {"two.yaml", "cautions:\n  K1: {earlier entry: extend, called for by: {words: [Chipper], kinds: lime}}\n"}});
    const CalledForBy& by = base.cautions.begin()->called_for_by;
    CHECK(by.words == Ids{"shredder", "chipper"});
    CHECK(by.kinds == std::vector<StepKind>{StepKind::lime});
}

TEST_CASE("what could hurt someone needs more than common practice, anything else more than memory", "[review][structure]") {
    const auto only_memory = [](const std::string& more) {
        const auto base = base_of(
            "sources:\n  book: {title: B, kind: handbook, standing: from memory}\n"
            "  page: {title: P, kind: government, standing: read}\n" +
            more);
        return about(structure_of(base, "only_from_memory"));
    };
    const auto caution = [&](const std::string& level, const std::string& sources) {
        return only_memory("cautions:\n  K1: {name: n, level: " + level + ", say: s, sources: [" + sources + "]}\n");
    };
    CHECK(caution("stop", "common_practice") == std::vector<Ids>{{"K1"}});
    CHECK(caution("stop", "common_practice, book") == std::vector<Ids>{{"K1"}});
    CHECK(caution("stop", "common_practice, page").empty());
    CHECK(caution("warn", "common_practice").empty());
    CHECK(caution("warn", "book") == std::vector<Ids>{{"K1"}});
    CHECK(caution("warn", "from_memory, book") == std::vector<Ids>{{"K1"}});
    const auto step = [&](const std::string& kind, const std::string& sources) {
        return only_memory(
            "cautions:\n  K1: {name: n, level: stop, say: s, called for by: {words: [sump]}, sources: [page]}\n"
            "steps:\n  s: {do: " +
            kind + ", if wrong: harmless, when: now, cautions: [K1], sources: [" + sources + "]}\n");
    };
    CHECK(step("Dust it, kind: lime", "common_practice") == std::vector<Ids>{{"s"}});
    CHECK(step("Open the sump, kind: air", "common_practice") == std::vector<Ids>{{"s"}});
    CHECK(step("Open the lid, kind: air", "common_practice").empty());
    CHECK(step("Open the sump, kind: air", "page").empty());
}

TEST_CASE("a clash is only used where both its sides have steps that are asked for", "[review][structure]") {
    const auto unused = [](const std::string& clash, const std::string& more = {}) {
        return structure_of(Rules()
                                .sign("a", "seen anyway: sometimes")
                                .step("wet", "pushes: [moisture up]")
                                .step("dry", "pushes: [moisture down]")
                                .step("nobodys", "kind: lime")
                                .cause("c", "signs: [{when: a, seen: usually}], steps: [wet, dry]" + more)
                                .clash("x", clash)
                                .base(),
                            "unused_clash")
            .size();
    };
    CHECK(unused("between: [moisture up, moisture down], find out: a") == 0);
    CHECK(unused("between: [moisture up, lime], find out: a") == 1);
    CHECK(unused("never: [lime], when: a, say: No lime.") == 1);
    CHECK(unused("never: [lime, wet], when: a, say: No.") == 0);
    CHECK(unused("never: [lime], when: a, say: No lime.", ", avoid: [x]") == 0);
    CHECK(unused("never: [], when: always, say: No.") == 1);
    CHECK(unused("never: [], when: always, say: No.", ", avoid: [x]") == 0);
    CHECK(unused("never: [], when: a, say: No.") == 0);  // said whenever a holds
}

TEST_CASE("advice is answered by an item that names its kind and entries, in any order", "[review][reviewed]") {
    const auto reviewed = [](const std::string& items) {
        const std::string rules = Rules().caution("K1").caution("K2").text() + "reviewed:\n" + items;
        std::vector<ReviewFinding> findings;
        const RuleBase base = base_of(rules);
        review_structure(base, findings);
        ReviewFinding pair = findings.front();
        pair.about = {"K1", "K2"};
        findings.push_back(pair);
        apply_reviewed(base, findings);
        std::vector<std::string> answers;
        for (const ReviewFinding& finding : findings)
            answers.push_back(finding.kind == "stale_review" ? "stale" : finding.answered_because);
        return answers;
    };
    using Answers = std::vector<std::string>;
    CHECK(reviewed("  - {kind: unused_caution, about: K2, because: Soon.}\n") == Answers{"", "Soon.", ""});
    CHECK(reviewed("  - {kind: unused_caution, about: [K2, K1], because: Both.}\n") == Answers{"", "", "Both."});
    CHECK(reviewed("  - {kind: unused_caution, about: [K3], because: S.}\n") == Answers{"", "", "", "stale"});
    CHECK(reviewed("  - {kind: unused_sign, about: [K1], because: S.}\n") == Answers{"", "", "", "stale"});
    CHECK(reviewed("  - {kind: unused_caution, about: [K1], because: One.}\n"
                   "  - {kind: unused_caution, about: [K2], because: Two.}\n") == Answers{"One.", "Two.", ""});
}

TEST_CASE("a fault is not answered, and answers of several files count together", "[review][reviewed]") {
    CHECK(complaints_of("reviewed:\n  - {kind: steps_clash, about: [a], because: B.}\n") ==
          "rules.yaml:2:12: 'steps_clash' is a fault, and a fault is mended, not answered\n");
    const auto base = base_of(std::vector<RuleText>{
        {"a.yaml", "reviewed:\n  - {kind: unused_sign, about: [a], because: A., sources: [common_practice]}\n"},
        {"b.yaml", "reviewed:\n  - {kind: unused_sign, about: [b], because: B.}\n"}});
    REQUIRE(base.reviewed.size() == 2);
    CHECK(to_text(base.reviewed[1].place) == "b.yaml:2:5");
    CHECK(base.reviewed[0].sources.size() == 1);
    CHECK(base.reviewed[1].because == "B.");
}

}  // namespace review_structure_test
