// Which question comes next, what is asked before anything else, and that no wish is taken for an answer.
#include "engine/asking.hpp"

#include "engine/change_of_mind.hpp"
#include "engine/red_flags.hpp"
#include "engine/spoken_reply.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_answers.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/told_beds.hpp"

#include <algorithm>
#include <set>
#include <string>
#include <vector>

namespace engine_asking_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

std::set<std::string> dangers(const std::string& line) {
    const Told what = told(line);
    std::set<std::string> result;
    for (const RedFlag& flag : red_flags(told_rule_base(), what, default_ranker().rank(what.facts)))
        result.insert(told_rule_base().signs[flag.sign].id + "=" + told_rule_base().signs[flag.sign].answers[flag.answer].id);
    return result;
}

NextStep next(const RuleBase& base, const std::vector<std::string>& words, std::string_view topic = {}, std::size_t asked = 0) {
    const Ranker ranker(base);
    const Told told = told_in(base, words);
    return next_step(ranker, told, ranker.rank(told.facts), asked, topic);
}

}  // namespace

TEST_CASE("dangers are asked after where there is reason, and only there", "[red_flags]") {
    using Ids = std::set<std::string>;
    // Of someone of whom nothing is known: the dangers to life.
    CHECK(dangers("") == Ids{"person_symptom=collapsed", "smell_smoke=yes"});
    // Rotten liquid holds gas, so a danger is there already.
    CHECK(dangers("smell_rotten=strong").count("person_symptom=collapsed") == 1);
    // What was told is not asked again.
    CHECK(dangers("smell_rotten=strong person_symptom=none smell_smoke=no").empty());
    CHECK(dangers("smell_rotten=strong person_symptom=? smell_smoke=?").empty());
    // A sour smell of kitchen waste is no reason.
    CHECK(dangers("smell_sour=strong stage=worm_bed").count("smell_smoke=yes") == 0);
    // What an emergency has settled already is none to ask after.
    CHECK(dangers("smell_smoke=yes").count("smell_smoke=yes") == 0);
}

TEST_CASE("a hot dry heap is reason to ask after smoke", "[red_flags]") {
    CHECK(dangers("stage=resting heap_peak=too_hot squeeze=dry_crumbles temp_trend=rising").count("smell_smoke=yes") == 1);
}

TEST_CASE("who has told nothing is asked what most causes hang on, and is never thought sure", "[asking]") {
    const NextStep step = next_step(default_ranker(), {}, default_ranker().rank({}), 0, {});
    CHECK(step.ask);
    CHECK_FALSE(step.stop);
    CHECK(next_step(default_ranker(), {}, default_ranker().rank({}), 10, {}).stop == StopReason::enough_questions);
}

TEST_CASE("five questions are enough where no answer points to anything that needs mending", "[asking]") {
    const auto stop = [](const std::string& words, std::size_t asked) {
        const Told what = told(words);
        return next_step(default_ranker(), what, default_ranker().rank(what.facts), asked, {}).stop;
    };
    CHECK_FALSE(stop("worm_place=? bad_smell=?", 4));
    CHECK(stop("worm_place=? bad_smell=?", 5) == StopReason::nothing_to_ask);
    CHECK(stop("worm_place=in_feed_zone bad_smell=no", 5) == StopReason::nothing_to_ask);
    CHECK_FALSE(stop("bad_smell=yes", 5));
}

TEST_CASE("while all looks well the questions are those that most causes hang on", "[asking]") {
    std::vector<std::string> asked;
    std::string words;
    for (const char* normal : {"worm_place=in_feed_zone", "bad_smell=no", "squeeze=few_drops", "uneaten_layer=under_2cm"}) {
        const Told what = told(words);
        const NextStep step = next_step(default_ranker(), what, default_ranker().rank(what.facts), asked.size(), {});
        REQUIRE(step.ask);
        asked.push_back(default_base().signs[*step.ask].id);
        words += (words.empty() ? "" : " ") + std::string(normal);
        CHECK(words.find(asked.back() + "=") != std::string::npos);  // the very sign that is answered next
    }
}

TEST_CASE("who has only said that nobody is in danger is asked what most causes hang on as well", "[asking]") {
    const NextStep silent = next_step(default_ranker(), {}, default_ranker().rank({}), 0, {});
    REQUIRE(silent.ask);
    const Told safe = told_in(default_base(), {"smell_smoke=no", "person_symptom=not collapsed"});
    const NextStep step = next_step(default_ranker(), safe, default_ranker().rank(safe.facts), 0, {});
    CHECK(step.ask == silent.ask);
}

TEST_CASE("of questions nearly as good, one of the same topic is asked", "[asking]") {
    const auto base = [](const std::string& hard) {
        return Rules()
            .sign("told", "seen anyway: almost never")
            .sign("first", "seen anyway: sometimes, topic: smell")
            .sign("second", "seen anyway: sometimes, topic: worms" + hard)
            .step("one")
            .step("two")
            .cause("x",
                   "signs: [{when: told, seen: usually}, {when: first, seen: almost always}, {when: second, seen: almost "
                   "always}], steps: [one]")
            .cause("y", "signs: [{when: told, seen: usually}], steps: [two]")
            .base();
    };
    const auto asked = [&](const std::string& hard, std::string_view topic) {
        const RuleBase rules = base(hard);
        return rules.signs[next(rules, {"told=yes"}, topic).ask.value()].id;
    };
    CHECK(asked("", "") == "first");
    CHECK(asked("", "worms") == "second");
    CHECK(asked("", "smell") == "first");
    CHECK(asked(", hard to tell: yes", "worms") == "first");  // not nearly as good
}

TEST_CASE("every step is a question not asked before or a reason to stop, and asking ends", "[asking][property]") {
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    Dice dice(7);
    for (int i = 0; i < 8; ++i) {
        Told told = told_in(base, random_answers(dice, base, dice.whole(1, 3)));
        for (std::size_t asked = 0;; ++asked) {
            REQUIRE(asked <= AskingLimits{}.most_questions);
            const Ranking ranking = ranker.rank(told.facts);
            if (ranking.contradictory) break;
            const NextStep step = next_step(ranker, told, ranking, asked, {});
            CHECK(step.ask.has_value() != step.stop.has_value());
            if (!step.ask) break;
            REQUIRE(std::find(told.order.begin(), told.order.end(), *step.ask) == told.order.end());
            REQUIRE_FALSE(hear_argument(told, base, random_answer(dice, base.signs[*step.ask])));
        }
    }
}

TEST_CASE("what would change the advice does change it", "[asking]") {
    for (const std::string line : {"smell_rotten=strong worm_place=up_walls_lid", "smell_sour=strong stage=worm_bed"}) {
        const Diagnosis diagnosis = diagnose_told(line);
        const auto changes = changes_of_mind(default_ranker(), diagnosis);
        CHECK(changes.size() <= most_changes_of_mind);
        CHECK_FALSE(changes.empty());
        for (const ChangeOfMind& change : changes) {
            const Sign& sign = told_rule_base().signs[change.sign];
            const Diagnosis then = diagnose_told(line + " " + sign.id + "=" + sign.answers[change.answer].id);
            CAPTURE(line, sign.id);
            if (change.first) CHECK(then.ranking.causes.front().cause == *change.first);
            if (change.first) CHECK(diagnosis.ranking.causes.front().cause != *change.first);
            const auto steps = [](const Diagnosis& of) {
                std::vector<Handle<Step>> list;
                for (const PlannedStep& planned : of.advice.steps) list.push_back(planned.step);
                return list;
            };
            if (change.steps) CHECK(steps(then) != steps(diagnosis));
        }
    }
}

TEST_CASE("no answer of the default rules is lost to a wish", "[spoken_reply]") {
    for (const Sign& sign : default_base().signs)
        for (std::size_t i = 0; i < sign.answers.size(); ++i) {
            CAPTURE(sign.id, sign.answers[i].id);
            std::string words = sign.answers[i].id;
            std::replace(words.begin(), words.end(), '_', ' ');
            // The interview tries the names of a sign's answers first.
            const auto by_name = read_reply(sign, words);
            CHECK((by_name && *by_name == sign.answers[i].id));
            const auto by_mark = read_reply(sign, option_mark(sign, i));
            CHECK((by_mark && *by_mark == sign.answers[i].id));
            if (sign.answers[i].means.empty()) continue;
            CHECK_FALSE(read_wish(sign.answers[i].means));
            const auto by_meaning = read_reply(sign, sign.answers[i].means);
            CHECK((by_meaning && (*by_meaning == sign.answers[i].id)));
        }
}

TEST_CASE("no is the answer none where it was asked whether something is there, and nowhere else", "[spoken_reply]") {
    const auto reply = [](const std::string& sign) {
        const auto read = read_reply(default_base().signs[default_base().signs.find(sign).value()], "No.");
        return read ? *read : std::string("not an answer");
    };
    for (const std::string sign :
         {"ants", "potworms", "smell_ammonia", "feed_dung", "worm_dead", "worm_clump", "mould", "rodents"})
        CHECK(reply(sign) == "none");
    CHECK(reply("rain_entry") == "no");
    for (const std::string sign : {"condensation", "worms_crossing", "drain", "roof", "heat_spread", "crust", "squeeze", "lid"})
        CHECK(reply(sign) == "not an answer");
}

TEST_CASE("a wish is the whole line, whatever its letters and its full stop", "[spoken_reply]") {
    CHECK(read_wish("Don\u2019t know.")->what == Wish::What::dont_know);
    for (const char* words : {"IDK", "no clue", "can\u2019t say", "cant say", "I haven't looked", "I'm not sure"}) {
        CAPTURE(words);
        REQUIRE(read_wish(words));
        CHECK(read_wish(words)->what == Wish::What::dont_know);
    }
    CHECK(read_wish("  WHY? ")->what == Wish::What::why);
    CHECK(read_wish("change 3")->number == std::size_t{3});
    CHECK(read_wish("change answer 12")->number == std::size_t{12});
    for (const std::string no :
         {"why is it so wet", "stop the smell", "change the bedding", "change 1234", "help me with flies", ""})
        CHECK_FALSE(read_wish(no));
}

TEST_CASE("some words in a row of one answer name it, but not where a denial would be lost", "[spoken_reply]") {
    const RuleBase base =
        Rules()
            .sign("food",
                  "answers: {covered: {means: the food is covered}, open: {means: the food lies open on top}, "
                  "none: {means: there is no food on top of it}}")
            .base();
    const auto reply = [&](const std::string& words) {
        const auto read = read_reply(base.signs[base.signs.find("food").value()], words);
        return read ? *read : std::string("not an answer");
    };
    for (const std::string words : {"open on top", "it's open on top", "its open on top", "Food lies open."})
        CHECK(reply(words) == "open");
    CHECK(reply("I think its open on top") == "open,unsure");
    CHECK(reply("no food on top") == "none");
    for (const std::string words : {"food on top", "food on top of it", "the food", "on top", "food"}) {
        CAPTURE(words);
        CHECK(reply(words) == "not an answer");
    }
}

TEST_CASE("an option is named by its number or its word", "[spoken_reply]") {
    const std::vector<std::string> options = {"all", "partly", "nothing"};
    CHECK(read_option(options, "2") == std::size_t{1});
    CHECK(read_option(options, "Partly.") == std::size_t{1});
    CHECK(read_option(options, "nothin") == std::size_t{2});
    for (const std::string no : {"0", "4", "", "x", "purple"}) CHECK_FALSE(read_option(options, no));
}

TEST_CASE("a second trouble that only the questions found is no reason to stop", "[asking]") {
    const RuleBase base =
        Rules()
            .sign("told", "seen anyway: sometimes")
            .sign("found", "seen anyway: practically never")
            .sign("more", "seen anyway: sometimes")
            .step("one")
            .step("two")
            .step("three")
            .cause("x", "signs: [{when: told, seen: usually}, {when: more, seen: almost always}], steps: [one]")
            .cause("y", "signs: [{when: told, seen: usually}, {when: more, seen: almost never}], steps: [two]")
            .cause("z", "signs: [{when: found, seen: almost always}], steps: [three]")
            .base();
    const Ranker ranker(base);
    const Told told = told_in(base, {"told=yes", "found=yes"});
    const Ranking ranking = ranker.rank(told.facts);
    AskingLimits limits;
    limits.lead = 1;
    limits.sure = 0.7;
    REQUIRE(sure_enough(base, ranking, limits));
    CHECK(next_step(ranker, told, ranking, 1, {}, {}, limits).stop == StopReason::sure_enough);
    const NextStep step = next_step(ranker, told, ranking, 1, {}, {base.signs.find("told").value()}, limits);
    REQUIRE(step.ask);
    CHECK(id_of(base.signs, *step.ask) == "more");
}

}  // namespace engine_asking_test
