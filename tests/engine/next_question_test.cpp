// The question most worth asking next.
#include "engine/next_question.hpp"

#include "tests/catch.hpp"
#include "tests/engine/random_answers.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace engine_next_question_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

using Ids = std::vector<std::string>;
constexpr std::size_t all = 1000;

std::vector<Question> questions(const RuleBase& base, const std::vector<std::string>& words, std::size_t most = all) {
    const Ranker ranker(base);
    const Told told = told_in(base, words);
    return next_questions(ranker, told, ranker.rank(told.facts), most);
}

Ids asked(const RuleBase& base, const std::vector<std::string>& words, std::size_t most = all) {
    Ids ids;
    for (const Question& question : questions(base, words, most)) ids.push_back(id_of(base.signs, question.sign));
    return ids;
}

double bits_of(const RuleBase& base, const std::vector<std::string>& words, const std::string& sign) {
    for (const Question& question : questions(base, words))
        if (id_of(base.signs, question.sign) == sign) return question.bits;
    return 0;
}

/// Two causes that one answer makes likely alike, and a sign that only one of them shows. `more` belongs to that sign.
Rules two_causes(const std::string& more = {}) {
    return Rules()
        .sign("smell", "seen anyway: almost never")
        .sign("splits", "seen anyway: sometimes" + more)
        .sign("both_show", "seen anyway: sometimes")
        .sign("nobody_shows", "seen anyway: sometimes")
        .cause("wet",
               "signs: [{when: smell, seen: usually}, {when: splits, seen: almost always}, {when: both_show, seen: usually}]")
        .cause("sour",
               "signs: [{when: smell, seen: usually}, {when: splits, seen: almost never}, {when: both_show, seen: usually}], "
               "not together with: [wet]")
        .cause("unlikely", "how common: rare, signs: [{when: nobody_shows, seen: usually}]");
}

}  // namespace

TEST_CASE("who has told nothing is asked first what most causes hang on, each question of another topic", "[next_question]") {
    const RuleBase base = two_causes().base();
    const Ranker ranker(base);
    const Told told;
    const Ranking ranking = ranker.rank(told.facts);
    const auto questions = first_questions(ranker, told, ranking, all);
    REQUIRE(questions.size() == 1);  // all four signs have the same topic
    const std::string first = id_of(base.signs, questions.front().sign);
    CHECK(first != "nobody_shows");  // one cause hangs on it, two on each of the others
    CHECK(first_questions(ranker, told, ranking, 0).empty());
}

TEST_CASE("the sign that splits two likely causes is asked first", "[next_question]") {
    const RuleBase base = two_causes().base();
    const Ids ids = asked(base, {"smell=yes"});
    REQUIRE_FALSE(ids.empty());
    CHECK(ids.front() == "splits");
    CHECK(bits_of(base, {"smell=yes"}, "splits") > 5 * bits_of(base, {"smell=yes"}, "both_show"));
    // What only bears on an unlikely cause is not asked.
    CHECK(std::find(ids.begin(), ids.end(), "nobody_shows") == ids.end());
}

TEST_CASE("what was answered, and what the person does not know, is not asked again", "[next_question]") {
    const RuleBase base = two_causes().base();
    for (const std::string answer : {"splits=yes", "splits=no", "splits=?", "splits=yes,guess"}) {
        CAPTURE(answer);
        const Ids ids = asked(base, {"smell=yes", answer});
        CHECK(std::find(ids.begin(), ids.end(), "splits") == ids.end());
        CHECK(std::find(ids.begin(), ids.end(), "smell") == ids.end());
    }
}

TEST_CASE("over the default rules no question comes back, and the best come first", "[next_question][property]") {
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    Dice dice(20261122);
    std::size_t most = 0;
    for (int i = 0; i < 60; ++i) {
        const Told told = told_in(base, random_answers(dice, base, dice.whole(1, 8)));
        const auto list = next_questions(ranker, told, ranker.rank(told.facts), 5);
        CHECK(list.size() <= 5);
        most = std::max(most, list.size());
        for (std::size_t k = 0; k < list.size(); ++k) {
            CHECK(std::find(told.order.begin(), told.order.end(), list[k].sign) == told.order.end());
            CHECK(list[k].bits > 0);
            CHECK(list[k].value <= list[k].bits);
            if (k > 0) CHECK(list[k - 1].value >= list[k].value);
            for (std::size_t j = 0; j < k; ++j) CHECK(list[j].sign != list[k].sign);
        }
    }
    CHECK(most == 5);
}

TEST_CASE("the fewer are wanted, the same ones come first", "[next_question]") {
    const RuleBase base = two_causes().base();
    const Ids ids = asked(base, {"smell=yes"});
    REQUIRE(ids.size() >= 2);
    CHECK(asked(base, {"smell=yes"}, 1) == Ids{ids.front()});
    CHECK(asked(base, {"smell=yes"}, 0).empty());
}

TEST_CASE("effort and doubt lower the worth of a question, not what it tells", "[next_question]") {
    struct Row {
        std::string more;
        double minutes;
        double knows;
    };
    const RuleBase plain = two_causes().base();
    const double bits = bits_of(plain, {"smell=yes"}, "splits");
    for (const Row& row : std::vector<Row>{{"", 1, 0.98},
                                           {", effort: touch", 2, 0.98},
                                           {", effort: dig", 2, 0.98},
                                           {", effort: measure", 5, 0.98},
                                           {", effort: wait", 20, 0.98},
                                           {", hard to tell: perhaps", 1, 0.85},
                                           {", hard to tell: yes, effort: measure", 5, 0.60}}) {
        CAPTURE(row.more);
        const RuleBase base = two_causes(row.more).base();
        bool found = false;
        for (const Question& question : questions(base, {"smell=yes"})) {
            if (id_of(base.signs, question.sign) != "splits") continue;
            found = true;
            CHECK(question.bits == near(bits, 1e-12));
            CHECK(question.value == near(bits * row.knows / row.minutes, 1e-12));
        }
        CHECK(found);
    }
}

TEST_CASE("of two signs that tell the same the easier is asked", "[next_question]") {
    const RuleBase base =
        Rules()
            .sign("hard", "seen anyway: sometimes, effort: measure")
            .sign("easy", "seen anyway: sometimes")
            .sign("doubtful", "seen anyway: sometimes, hard to tell: yes")
            .cause("x", "signs: [{when: hard, seen: usually}, {when: easy, seen: usually}, {when: doubtful, seen: usually}]")
            .base();
    CHECK(asked(base, {}) == Ids{"easy", "doubtful", "hard"});
}

TEST_CASE("what a plain question tells is its mutual information with the set of causes", "[next_question]") {
    // The worked example of method.md section 1.2 once more: a sign that all likely causes have to do with.
    const RuleBase base =
        Rules()
            .sign("s1", "seen anyway: almost never")
            .sign("s2", "seen anyway: almost never")
            .sign("s3", "seen anyway: sometimes")
            .cause("a", "how common: very common, signs: [{when: s1, seen: usually}, {when: s2, seen: sometimes}]")
            .cause("b", "how common: common, signs: [{when: s1, seen: about half the time}, {when: s3, seen: usually}]")
            .base();
    const Ranker ranker(base);
    const Told told = told_in(base, {"s1=yes"});
    const Ranking ranking = ranker.rank(told.facts);
    for (const RankedCause& cause : ranking.causes) REQUIRE(cause.raised());
    const auto prepared = ranker.prepare(told.facts);
    for (const std::string sign : {"s2", "s3"}) {
        CAPTURE(sign);
        const auto feature = ranker.features().features_of(base.signs.find(sign).value()).front().feature;
        // Sets beyond 99 % of the chance are left out of account.
        CHECK(bits_of(base, {"s1=yes"}, sign) == near(information(prepared.model, ranking.weighed, feature), 0.01));
    }
}

TEST_CASE("signs that act through rules, circumstances and vetoes are asked as well", "[next_question]") {
    const RuleBase base =
        Rules()
            .sign("smell", "seen anyway: almost never")
            .sign("rain")
            .sign("fed", "answers: {citrus: {means: citrus}, bread: {means: bread}}")
            .sign("drain_clear")
            .conclusion("soaked", "seen anyway: sometimes")
            .rule("r", "rain", "soaked")
            .cause("wet",
                   "signs: [{when: smell, seen: usually}, {when: soaked, seen: almost always}], cannot be when: drain_clear")
            .cause("sour",
                   "signs: [{when: smell, seen: usually}], made likelier by: [{when: fed is citrus, points: very strongly}]")
            .base();
    Ids ids = asked(base, {"smell=yes"});
    std::sort(ids.begin(), ids.end());
    CHECK(ids == Ids{"drain_clear", "fed", "rain"});
}

TEST_CASE("nothing is asked when the answers contradict one another", "[next_question]") {
    const RuleBase base =
        Rules()
            .sign("a", "seen anyway: sometimes")
            .sign("b")
            .sign("c", "seen anyway: sometimes")
            .cause("x", "signs: [{when: a, seen: usually}, {when: c, seen: usually}], must be when: a, cannot be when: b")
            .base();
    CHECK(asked(base, {"a=yes", "b=yes"}).empty());
    CHECK_FALSE(asked(base, {"b=no"}).empty());
}

TEST_CASE("an answer that settles everything leaves little to ask", "[next_question]") {
    const RuleBase base = two_causes().base();
    const double before = bits_of(base, {"smell=yes"}, "both_show");
    CHECK(before > 0);
    CHECK(bits_of(base, {"smell=yes", "splits=yes", "both_show=yes"}, "nobody_shows") == 0);
}

TEST_CASE("who has told nothing is asked by how many causes hang on a sign, also through conclusions", "[next_question]") {
    const RuleBase base = Rules()
                              .sign("lone", "seen anyway: sometimes, topic: smell")
                              .sign("second_of_its_topic", "seen anyway: sometimes, topic: worms")
                              .sign("shared", "seen anyway: sometimes, topic: worms")
                              .sign("behind", "topic: heat")
                              .conclusion("concluded", "seen anyway: sometimes")
                              .rule("r", "behind", "concluded")
                              .cause("x",
                                     "signs: [{when: shared, seen: usually}, {when: concluded, seen: usually}, "
                                     "{when: second_of_its_topic, seen: usually}]")
                              .cause("y",
                                     "signs: [{when: shared, seen: usually}, {when: concluded, seen: usually}, "
                                     "{when: second_of_its_topic, seen: usually}]")
                              .cause("z", "signs: [{when: shared, seen: usually}, {when: lone, seen: almost always}]")
                              .base();
    const Ranker ranker(base);
    const Told told;
    Ids ids;
    for (const Question& question : first_questions(ranker, told, ranker.rank(told.facts), all))
        ids.push_back(id_of(base.signs, question.sign));
    CHECK(ids == Ids{"shared", "behind", "lone"});
    CHECK(first_questions(ranker, told, ranker.rank(told.facts), 2).size() == 2);
}

TEST_CASE("two causes ask for the same when their steps for now and this week, and their cautions, are the same",
          "[next_question]") {
    const RuleBase base = Rules()
                              .sign("s", "seen anyway: sometimes")
                              .step("a")
                              .step("b", "when: this week")
                              .step("later", "when: from now on")
                              .caution("k")
                              .cause("one", "signs: [{when: s, seen: usually}], steps: [a, b]")
                              .cause("turned", "signs: [{when: s, seen: usually}], steps: [b, a]")
                              .cause("with_later", "signs: [{when: s, seen: usually}], steps: [a, b, later]")
                              .cause("less", "signs: [{when: s, seen: usually}], steps: [a]")
                              .cause("cautioned", "signs: [{when: s, seen: usually}], steps: [a, b], cautions: [k]")
                              .base();
    const auto same = [&](const char* a, const char* b) {
        return same_remedy(base.causes[base.causes.find(a).value()], base.causes[base.causes.find(b).value()], base);
    };
    CHECK(same("one", "turned"));
    CHECK(same("one", "with_later"));
    CHECK_FALSE(same("one", "less"));
    CHECK_FALSE(same("one", "cautioned"));
    CHECK(same("cautioned", "cautioned"));
}

TEST_CASE("what is merely common is not asked about while the answers speak for something", "[next_question]") {
    const RuleBase base = Rules()
                              .sign("smell", "seen anyway: almost never")
                              .sign("of_the_smelly", "seen anyway: sometimes")
                              .sign("of_the_common", "seen anyway: sometimes")
                              .cause("smelly",
                                     "how common: occasional, signs: [{when: smell, seen: usually}, "
                                     "{when: of_the_smelly, seen: usually}]")
                              .cause("common", "how common: very common, signs: [{when: of_the_common, seen: usually}]")
                              .base();
    CHECK(asked(base, {"smell=yes"}) == Ids{"of_the_smelly"});
    // As long as they speak for nothing, the common one is worth a question.
    const Ids before = asked(base, {});
    CHECK(std::find(before.begin(), before.end(), "of_the_common") != before.end());
}

TEST_CASE("what would tell less than a two-hundredth of a bit is not asked", "[next_question]") {
    const RuleBase base = two_causes().base();
    for (const Question& question : questions(base, {"smell=yes"})) CHECK(question.bits >= 0.005);
    for (const Question& question : questions(base, {"smell=yes", "splits=yes"})) CHECK(question.bits >= 0.005);
}

TEST_CASE("whether a second cause of the same remedy is there as well is no question about what to do", "[next_question]") {
    const auto bits = [](const std::string& steps_of_y) {
        const RuleBase base =
            Rules()
                .sign("smell", "seen anyway: almost never")
                .sign("of_y", "seen anyway: sometimes")
                .step("one")
                .step("two")
                .cause("x", "must be when: smell, signs: [{when: smell, seen: usually}], steps: [one]")
                .cause("y", "signs: [{when: smell, seen: usually}, {when: of_y, seen: almost always}], steps: " + steps_of_y)
                .base();
        const Ranker ranker(base);
        const Told told = told_in(base, {"smell=yes"});
        for (const Question& question : next_questions(ranker, told, ranker.rank(told.facts), all, Aim::remedies))
            if (id_of(base.signs, question.sign) == "of_y") return question.bits;
        return 0.0;
    };
    CHECK(bits("[two]") > 0.05);
    CHECK(bits("[one]") == 0);
}

}  // namespace engine_next_question_test
