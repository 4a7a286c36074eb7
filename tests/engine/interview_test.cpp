// A call as a state machine, over scripts of what a person types.
#include "engine/interview.hpp"

#include "engine/call_record_reader.hpp"
#include "tests/catch.hpp"
#include "tests/engine/calls.hpp"

#include <algorithm>
#include <string>
#include <vector>

namespace engine_interview_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// Never sure and never content, so that every question is asked that tells anything.
AskingLimits curious() { return {.sure = 1.1, .least_bits = 1e-6, .most_questions = 100}; }

TestCall curious_call() { return TestCall(call_rules().base(), curious()); }

/// What a call's record, written and read again, goes on with.
CallRecord read_again(const CallRecord& record) {
    Complaints complaints;
    CallRecord result = read_call(write_call(record), "call.yaml", complaints);
    for (const Complaint& complaint : complaints.sorted()) FAIL(to_text(complaint));
    return result;
}

std::vector<std::string> told(const TestCall& call) {
    std::vector<std::string> result;
    for (const auto sign : call.interview().told().order) {
        const Observation* seen = call.interview().told().facts.find(sign);
        const Sign& of = call.base().signs[sign];
        result.push_back(of.id + "=" + (seen ? as_value(of, *seen) + std::to_string(static_cast<int>(seen->sureness)) : "?"));
    }
    std::sort(result.begin(), result.end());
    return result;
}

}  // namespace

TEST_CASE("a call begins with the caller's own words and says what it understood and what it did not", "[interview]") {
    TestCall call = curious_call();
    REQUIRE(call.shown<shown::AskOwnWords>());
    CHECK_FALSE(call.shown<shown::AskOwnWords>()->news);
    call.say("It stinks and it is soaking wet. The gate is green.");
    const auto* understood = call.shown<shown::Understood>();
    REQUIRE(understood);
    REQUIRE(understood->answers.size() == 2);
    CHECK(understood->own_words);
    CHECK(understood->answers[0].number == 1);
    CHECK(understood->answers[0].from == "stinks");
    CHECK(understood->answers[1].words == "it is wet");
    REQUIRE(understood->not_used.size() == 1);
    CHECK(understood->not_used.front().find("gate") != std::string::npos);
    CHECK(call.value("smell") == "foul");
    CHECK(call.value("wet") == "yes");
    CHECK_FALSE(call.asked().empty());
    CHECK(call.asked() != "smell");
    CHECK(call.asked() != "wet");
}

TEST_CASE("what goes against an earlier answer is not said to be taken down", "[interview]") {
    TestCall call = curious_call();
    call.say("it is soaking wet").say("none");
    REQUIRE_FALSE(call.asked().empty());
    call.say("quite dry");
    REQUIRE(call.shown<shown::Against>());
    CHECK_FALSE(call.shown<shown::Understood>());
    REQUIRE(call.shown<shown::NotUsed>());
    CHECK_FALSE(call.shown<shown::NotUsed>()->no_answer_yet);
    CHECK(call.value("wet") == "yes");
}

TEST_CASE("several words that led to one answer are told in a row", "[interview]") {
    TestCall call = curious_call();
    call.say("it stinks, it reeks");
    const auto* understood = call.shown<shown::Understood>();
    REQUIRE(understood);
    REQUIRE(understood->answers.size() == 1);
    CHECK(understood->answers[0].from == "stinks; it reeks");
}

TEST_CASE("the first question stays with what the caller speaks of, where another is no better", "[interview]") {
    const auto first_asked = [](const std::string& topic) {
        TestCall call(
            Rules()
                .sign("told", "topic: " + topic +
                                  ", seen anyway: almost never, answers: {yes: {means: it reeks, heard as: [it "
                                  "reeks]}, no: {means: it does not}}")
                .sign("first", "seen anyway: sometimes, topic: smell")
                .sign("second", "seen anyway: sometimes, topic: worms")
                .step("one")
                .step("two")
                .cause("x",
                       "signs: [{when: told, seen: usually}, {when: first, seen: almost always}, {when: second, seen: "
                       "almost always}], steps: [one]")
                .cause("y", "signs: [{when: told, seen: usually}], steps: [two]")
                .base());
        return call.say("it reeks").asked();
    };
    CHECK(first_asked("feed") == "first");
    CHECK(first_asked("smell") == "first");
    CHECK(first_asked("worms") == "second");
}

TEST_CASE("who has no words is asked after dangers, then what most causes hang on", "[interview]") {
    for (const std::string nothing : {"", "   ", "don't know", "skip"}) {
        TestCall call = curious_call();
        call.say(nothing);
        const auto* dangers = call.shown<shown::AskDangers>();
        REQUIRE(dangers);
        REQUIRE(dangers->flags.size() == 1);
        CHECK(call.base().signs[dangers->flags.front().sign].id == "hurt");
        call.say("why");
        CHECK(call.shown<shown::WhyDangers>());
        CHECK(call.shown<shown::AskDangers>());
        call.say("purple");
        CHECK(call.shown<shown::NotUsed>());
        call.say("none");
        CHECK(call.shown<shown::NoDanger>());
        CHECK(call.value("hurt") == "no");
        CHECK_FALSE(call.asked().empty());
    }
}

TEST_CASE("dangers are asked after once, and not where nothing gives reason", "[interview]") {
    TestCall call = curious_call();
    call.say("it stinks");
    CHECK_FALSE(call.shown<shown::AskDangers>());
    TestCall silent = curious_call();
    silent.say("").say("don't know");
    CHECK(silent.value("hurt") == "?");
    while (!silent.ended()) {
        CHECK_FALSE(silent.shown<shown::AskDangers>());
        silent.say("don't know");
    }
}

namespace {

/// With a danger to life that a smell tells of, a wound, and a caution that can wait.
TestCall call_with_cautions() {
    return TestCall(
        call_rules()
            .sign("state",
                  "topic: people, answers: {well: {means: all are well, seen anyway: the rest}, cut: {means: someone "
                  "is cut, seen anyway: practically never, heard as: [cut my hand]}, down: {means: someone is down, "
                  "seen anyway: practically never}}")
            .caution("lies", "level: stop, emergency: yes, when: state is down")
            .caution("gas", "level: stop, when: smell is foul")
            .caution("cuts", "level: warn, when: state is cut")
            .caution("slips", "level: warn, when: wet")
            .base(),
        curious());
}

std::vector<std::string> read_at_once(const TestCall& call) {
    std::vector<std::string> ids;
    if (const auto* read = call.shown<shown::ReadAtOnce>())
        for (const auto caution : read->cautions) ids.push_back(call.base().cautions[caution].id);
    return ids;
}

}  // namespace

TEST_CASE("a danger to life and what concerns people are read out before the next question, each once", "[interview]") {
    using Ids = std::vector<std::string>;
    TestCall call = call_with_cautions();
    call.say("it is soaking wet");
    CHECK(read_at_once(call).empty());  // that can wait for the advice
    call.say("it stinks");              // which answers no question, so that one still stands
    CHECK(read_at_once(call) == Ids{"gas"});
    CHECK_FALSE(call.asked().empty());
    call.say("don't know");
    CHECK(read_at_once(call).empty());
    CHECK(call.shown<shown::AskDangers>());
    TestCall both = call_with_cautions();
    both.say("it stinks and i cut my hand");
    CHECK(read_at_once(both) == Ids{"gas", "cuts"});
    // After the record is taken up again nobody knows who was there before.
    TestCall again(both.base(), both.record());
    CHECK(read_at_once(again) == Ids{"gas", "cuts"});
}

TEST_CASE("who does not know of the dangers, or goes without saying, is told to find out", "[interview]") {
    for (const std::string line : {"don't know", "stop"}) {
        TestCall call = curious_call();
        call.say("").say(line);
        REQUIRE(call.shown<shown::DangersNotKnown>());
        CHECK(call.shown<shown::DangersNotKnown>()->flags.size() == 1);
        CHECK(call.ended() == (line == "stop"));
    }
    CHECK(curious_call().say("").end().shown<shown::DangersNotKnown>());
    CHECK_FALSE(curious_call().say("").say("none").shown<shown::DangersNotKnown>());
    CHECK_FALSE(curious_call().say("it stinks").end().shown<shown::DangersNotKnown>());
}

TEST_CASE("where nothing is known the call ends with what to look at, asked before or not", "[interview]") {
    TestCall call = curious_call();
    call.say("").say("none");
    const std::string first = call.asked();
    call.say("don't know");
    while (!call.ended()) call.say("stop");
    CHECK_FALSE(call.shown<shown::WouldChangeMyMind>());
    const auto* look = call.shown<shown::LookAt>();
    REQUIRE(look);
    REQUIRE_FALSE(look->signs.empty());
    CHECK(call.base().signs[look->signs.front()].id == first);
    CHECK_FALSE(curious_call().say("it stinks").say("stop").shown<shown::LookAt>());
}

TEST_CASE("an emergency ends the call at once, wherever it is told, and the danger comes first", "[interview]") {
    const auto check = [](const TestCall& call) {
        CHECK(call.ended());
        CHECK(call.reason() == StopReason::emergency);
        REQUIRE(call.interview().diagnosis());
        CHECK(call.interview().diagnosis()->advice.verdict == Verdict::emergency);
        std::size_t advised = 0;
        std::size_t stopped = 0;
        for (std::size_t i = 0; i < call.last().size(); ++i) {
            if (std::holds_alternative<shown::Advised>(call.last()[i])) advised = i;
            if (std::holds_alternative<shown::Stopped>(call.last()[i])) stopped = i;
        }
        CHECK(advised < stopped);
        CHECK(call.record().course.back().advice.because == "emergency");
    };
    check(curious_call().say("it stinks, and someone collapsed"));
    check(curious_call().say("").say("1"));
    check(curious_call().say("").say("yes"));
    check(curious_call().say("").say("look, someone collapsed!"));
    check(curious_call().say("it stinks").say("someone collapsed"));
}

TEST_CASE("a question is answered by number, by word, by its meaning, with a slip, or in own words", "[interview]") {
    struct Row {
        std::string sign, said, value;
        Sureness sure = Sureness::sure;
    };
    for (const Row& row : std::vector<Row>{{"wet", "1", "yes"},
                                           {"wet", "no", "no"},
                                           {"wet", "Yes!", "yes"},
                                           {"wet", "y", "yes"},
                                           {"wet", "it is wet", "yes"},
                                           {"wet", "I think so, yes", "yes", Sureness::unsure},
                                           {"wet", "yes, unsure", "yes", Sureness::unsure},
                                           {"wet", "1?", "yes", Sureness::unsure},
                                           {"wet", "a guess: no", "", Sureness::sure},
                                           {"wet", "no, a guess", "no", Sureness::guess},
                                           {"wet", "it is soggy all over", "yes"},
                                           {"wet", "no, it is quite dry", "no"},
                                           {"where", "1", "walls"},
                                           {"where", "1, 2", "walls,floor"},
                                           {"where", "1 and 2", "walls,floor"},
                                           {"where", "none", "none"},
                                           {"where", "not walls", "not walls"},
                                           {"where", "flor", ""},
                                           {"where", "flloor", "floor"},
                                           {"warmth", "31", "31 °C"},
                                           {"warmth", "31 C", "31 °C"},
                                           {"warmth", "31 degrees", "31 °C"},
                                           {"warmth", "about 88 F", "31.1111 °C"},
                                           {"warmth", "28-32 °C", "28 to 32 °C"},
                                           {"warmth", "between 28 and 32", "28 to 32 °C"},
                                           {"warmth", "over 30 c", "above 30 °C"},
                                           {"warmth", "a", "cool"},
                                           {"warmth", "warm", "warm"},
                                           {"warmth", "200", ""},
                                           {"drain", "3", ""},
                                           {"drain", "purple", ""}}) {
        CAPTURE(row.sign, row.said);
        TestCall call = curious_call();
        call.say("it stinks");
        for (int i = 0; i < 10 && call.asked() != row.sign; ++i) call.say("don't know");
        REQUIRE(call.asked() == row.sign);
        call.say(row.said);
        CHECK(call.value(row.sign) == row.value);
        if (row.value.empty()) {
            CHECK(call.shown<shown::NotUsed>());
            CHECK(call.asked() == row.sign);
        } else {
            const auto sign = call.base().signs.find(row.sign).value();
            CHECK(call.interview().told().facts.find(sign)->sureness == row.sure);
            CHECK(call.asked() != row.sign);
        }
    }
}

TEST_CASE("one of several answers may be left open between two of them", "[interview]") {
    TestCall call = curious_call();
    call.say("it is soaking wet");
    for (int i = 0; i < 10 && call.asked() != "smell"; ++i) call.say("don't know");
    REQUIRE(call.asked() == "smell");
    call.say("1 or 2");
    CHECK(call.value("smell") == "not fine");
}

TEST_CASE("what is told beside the point is taken down, and the question stays", "[interview]") {
    TestCall call = curious_call();
    call.say("it stinks");
    const std::string question = call.asked();
    REQUIRE(question != "wet");
    call.say("well, it is soggy in there");
    REQUIRE(call.shown<shown::NotUsed>());
    CHECK(call.shown<shown::NotUsed>()->no_answer_yet);
    CHECK(call.asked() == question);
    CHECK(call.value("wet") == "yes");
}

TEST_CASE("what goes against an earlier answer is said, and the earlier one stays", "[interview]") {
    TestCall call = curious_call();
    call.say("it stinks");
    call.say("it smells fine, really");
    REQUIRE(call.shown<shown::Against>());
    CHECK(call.shown<shown::Against>()->earlier.number == 1);
    CHECK(call.value("smell") == "foul");
    CHECK_FALSE(call.ended());
}

TEST_CASE("a danger told later counts for more than the answer that there is none", "[interview]") {
    TestCall call = curious_call();
    call.say("").say("none");
    REQUIRE(call.value("hurt") == "no");
    REQUIRE_FALSE(call.asked().empty());
    call.say("hang on, someone collapsed");
    CHECK_FALSE(call.shown<shown::Against>());
    CHECK(call.value("hurt") == "yes");
    CHECK(call.ended());
    CHECK(call.reason() == StopReason::emergency);
    // It stands in the record, and is told from it.
    TestCall resumed(call_rules().base(), read_again(call.record()));
    CHECK(resumed.value("hurt") == "yes");
}

TEST_CASE("a danger told instead of how it went is heard", "[interview]") {
    TestCall first = curious_call();
    first.say("it is soaking wet").say("none").say("stop");
    REQUIRE(first.ended());
    TestCall again(call_rules().base(), read_again(first.record()), true);
    REQUIRE_FALSE(again.ended());
    again.say("someone collapsed last night");
    CHECK(again.value("hurt") == "yes");
    CHECK(again.reason() == StopReason::emergency);
}

TEST_CASE("whoever is not certain of a danger, or says only yes, is taken seriously", "[interview]") {
    const auto two_dangers = [] {
        return call_rules()
            .sign("smoke",
                  "seen anyway: practically never, topic: people, answers: {yes: {means: it smokes}, no: {means: no smoke}}")
            .caution("fire", "level: stop, emergency: yes, when: smoke")
            .base();
    };
    TestCall call(two_dangers());
    call.say("");
    REQUIRE(call.shown<shown::AskDangers>());
    REQUIRE(call.shown<shown::AskDangers>()->flags.size() == 2);
    call.say("yes");
    REQUIRE(call.shown<shown::NotUsed>());
    CHECK(call.shown<shown::NotUsed>()->why == "which of them? Say its number");
    REQUIRE(call.shown<shown::AskDangers>());
    for (const char* doubtful : {"2, unsure", "2?", "maybe 2"}) {
        TestCall other(two_dangers());
        other.say("").say(doubtful);
        CAPTURE(doubtful);
        CHECK(other.value("smoke") == "yes");
        CHECK(other.interview().told().facts.find(*other.base().signs.find("smoke"))->sureness == Sureness::unsure);
        CHECK(other.reason() == StopReason::emergency);
    }
}

TEST_CASE("the wishes: why, so far, list, help, again leave the question as it is", "[interview]") {
    TestCall call = curious_call();
    call.say("it stinks");
    const std::string question = call.asked();
    const std::size_t entries = call.record().course.size();
    call.say("why");
    const auto* why = call.shown<shown::WhyAsked>();
    REQUIRE(why);
    CHECK(why->answers.size() == call.base().signs[why->sign].answers.size());
    CHECK(std::any_of(why->answers.begin(), why->answers.end(), [](const WhatIf& what) { return !what.moved.empty(); }));
    CHECK(call.asked() == question);
    call.say("what do you think so far?");
    CHECK(call.shown<shown::SoFar>());
    CHECK(call.asked() == question);
    call.say("list");
    REQUIRE(call.shown<shown::AnswersSoFar>());
    CHECK(call.shown<shown::AnswersSoFar>()->answers.size() == 1);
    call.say("help");
    CHECK(call.shown<shown::Help>());
    call.say("again");
    CHECK(call.last().size() == 1);
    CHECK(call.asked() == question);
    call.say("");
    CHECK(call.asked() == question);
    CHECK(call.record().course.size() == entries);
}

TEST_CASE("what an answer would do, as it is said, is what it does", "[interview]") {
    TestCall call = curious_call();
    call.say("it stinks").say("why");
    const shown::WhyAsked why = *call.shown<shown::WhyAsked>();
    const Sign& sign = call.base().signs[why.sign];
    for (const WhatIf& what : why.answers) {
        Told told = call.interview().told();
        REQUIRE_FALSE(hear(told, call.base(), sign.id, sign.answers[what.answer].id, "test"));
        const Ranking ranking = call.ranker().rank(told.facts);
        for (const MovedChance& moved : what.moved) {
            CHECK(ranking.find(moved.cause)->chance == Approx(moved.after).margin(1e-9));
            CHECK(call.interview().ranking().find(moved.cause)->chance == Approx(moved.before).margin(1e-9));
        }
    }
}

TEST_CASE("back takes answers back one by one, to the first words and no further", "[interview]") {
    TestCall call = curious_call();
    call.say("it stinks");
    const std::string first = call.asked();
    call.say("don't know");
    const std::string second = call.asked();
    REQUIRE_FALSE(second.empty());
    call.say("back");
    CHECK(call.shown<shown::WentBack>());
    CHECK(call.asked() == first);
    CHECK(call.value(first).empty());
    call.say("back");
    CHECK(call.shown<shown::AskOwnWords>());
    CHECK(call.value("smell").empty());
    call.say("back");
    CHECK(call.shown<shown::NothingBefore>());
    CHECK(call.shown<shown::AskOwnWords>());
    call.say("it stinks");
    CHECK(call.asked() == first);
    // What was taken back stays in the record, with the mark that it does not count.
    CHECK(call.record().course.size() == 5);
    CHECK(what_counts(call.record()).size() == 1);
}

TEST_CASE("an earlier answer is put right by its number", "[interview]") {
    TestCall call = curious_call();
    call.say("it stinks and it is soaking wet").say("change 2");
    CHECK(call.asked() == "wet");
    CHECK(call.shown<shown::AskSign>()->changing);
    call.say("no");
    CHECK(call.value("wet") == "no");
    CHECK(call.value("smell") == "foul");
    CHECK(call.interview().told().order.size() == 2);
    call.say("change 1");
    CHECK(call.asked() == "smell");
    call.say("don't know");
    CHECK(call.value("smell") == "?");
    call.say("change 1").say("back");  // thinks better of it
    CHECK(call.value("smell") == "?");
    call.say("back");  // takes the change back
    CHECK(call.value("smell") == "foul");
    for (const std::string wrong : {"change 9", "change 0", "change 99999"}) {
        CAPTURE(wrong);
        const std::string question = call.asked();
        call.say(wrong);
        CHECK(call.asked() == question);
    }
    call.say("change");
    CHECK(call.shown<shown::AnswersSoFar>());
    CHECK_FALSE(call.asked().empty());
}

TEST_CASE("what may mean several things is asked first, until one of them is out of the ordinary", "[interview]") {
    const RuleBase base =
        call_rules()
            .sign("whiff",
                  "seen anyway: sometimes, narrowed by: [fed, smell], answers: {yes: {means: it whiffs, heard "
                  "as: [it whiffs]}, no: {}}")
            .base();
    const auto begun = [&] {
        TestCall call(base, curious());
        call.say("it whiffs and it is soaking wet");
        return call;
    };
    TestCall call = begun();
    CHECK(call.value("whiff") == "yes");
    CHECK(call.asked() == "fed");
    CHECK(call.shown<shown::AskSign>()->said == "it whiffs");
    call.say("why").say("no");
    CHECK(call.asked() == "smell");
    CHECK(call.shown<shown::AskSign>()->said == "it whiffs");
    call.say("sour");
    if (call.shown<shown::AskSign>()) CHECK(call.shown<shown::AskSign>()->said.empty());
    TestCall other = begun();
    other.say("yes");
    if (other.shown<shown::AskSign>()) CHECK(other.shown<shown::AskSign>()->said.empty());
}

TEST_CASE("answers that rule out everything are read back, and changing one goes on", "[interview]") {
    const RuleBase base = Rules()
                              .sign("a", "seen anyway: sometimes, answers: {yes: {means: a is so, heard as: [aaa]}, no: {}}")
                              .sign("b", "answers: {yes: {means: b is so, heard as: [bbb]}, no: {}}")
                              .sign("c", "seen anyway: sometimes")
                              .step("s")
                              .cause("x",
                                     "signs: [{when: a, seen: usually}, {when: c, seen: usually}], must be when: a, cannot be "
                                     "when: b, steps: [s]")
                              .base();
    TestCall call(base, curious());
    call.say("aaa, and bbb");
    REQUIRE(call.shown<shown::Contradiction>());
    CHECK(call.shown<shown::Contradiction>()->answers.size() == 2);
    call.say("what now");
    CHECK(call.shown<shown::Contradiction>());
    call.say("don't know");
    CHECK(call.shown<shown::Contradiction>());
    TestCall other(base, curious());
    other.say("aaa, and bbb").say("stop");
    CHECK(other.ended());
    CHECK(other.interview().diagnosis()->ranking.contradictory);
    call.say("change 2").say("no");
    CHECK_FALSE(call.shown<shown::Contradiction>());
    CHECK(call.value("b") == "no");
}

TEST_CASE("don't know all the way ends by itself, with advice", "[interview]") {
    TestCall call = curious_call();
    call.say("it stinks");
    int questions = 0;
    while (!call.ended() && questions < 50) {
        CHECK_FALSE(call.asked().empty());
        call.say("don't know");
        ++questions;
    }
    CHECK(questions >= 4);
    CHECK(questions <= 7);  // no more than there are signs
    CHECK((call.reason() == StopReason::nothing_to_ask || call.reason() == StopReason::nothing_changes));
    CHECK(call.shown<shown::Advised>());
    CHECK(call.shown<shown::CallAgain>());
}

TEST_CASE("the four reasons to stop, each where it belongs", "[interview]") {
    SECTION("sure enough") {
        TestCall call(call_rules().base());
        call.say("it stinks and it is soaking wet").say("none");
        for (int i = 0; i < 10 && !call.ended(); ++i) call.say(call.asked() == "drain" ? "yes" : "no");
        CHECK(call.reason() == StopReason::sure_enough);
    }
    SECTION("nothing worth asking") {
        TestCall call(call_rules().base(), {.sure = 1.1, .least_bits = 5});
        call.say("it stinks");
        CHECK(call.reason() == StopReason::nothing_to_ask);
    }
    SECTION("nothing would change") {
        // Both causes ask for one step only, which is needed whichever it is.
        TestCall call(
            Rules()
                .sign("smell",
                      "seen anyway: practically never, answers: {yes: {means: it smells, heard as: [it stinks]}, no: {}}")
                .sign("other", "seen anyway: sometimes")
                .step("only")
                .step("beside", "if wrong: drastic")
                .caution("care")
                .cause("x", "signs: [{when: smell, seen: almost always}, {when: other, seen: usually}], steps: [only]")
                .cause("y", "signs: [{when: smell, seen: almost always}], steps: [only], cautions: [care]")
                .base(),
            {.sure = 1.1, .least_bits = 1e-6});
        call.say("it stinks");
        CHECK(call.reason() == StopReason::nothing_changes);
    }
    SECTION("enough questions") {
        TestCall call(call_rules().base(), {.sure = 1.1, .least_bits = 1e-6, .most_questions = 2});
        call.say("it stinks").say("don't know").say("don't know");
        CHECK(call.reason() == StopReason::enough_questions);
    }
    SECTION("the person says so, at any point") {
        CHECK(curious_call().say("stop").reason() == StopReason::said_to_stop);
        CHECK(curious_call().say("").say("enough").reason() == StopReason::said_to_stop);
        CHECK(curious_call().say("it stinks").say("advise now").reason() == StopReason::said_to_stop);
    }
}

TEST_CASE("where the input ends, the advice follows, at every question", "[interview]") {
    for (int answered = -1; answered < 6; ++answered) {
        TestCall call = curious_call();
        if (answered >= 0) call.say("it stinks");
        for (int i = 0; i < answered && !call.ended(); ++i) call.say("don't know");
        if (call.ended()) break;
        call.end();
        CHECK(call.ended());
        CHECK(call.reason() == StopReason::end_of_input);
        CHECK(call.interview().diagnosis());
        CHECK(call.record().course.back().kind == CallEntry::Kind::advised);
        CHECK(call.end().last().empty());
        CHECK(call.say("yes").last().empty());
    }
}

TEST_CASE("a call goes on from its record exactly where it was, after every line", "[interview]") {
    const std::vector<std::string> script = {"it stinks",      "1, unsure", "back", "don't know", "why", "change 1", "sour",
                                             "soggy, I'd say", "31.5 C",    "no",   "2",          "yes", "1",        "list"};
    TestCall call = curious_call();
    for (const std::string& line : script) {
        if (call.ended()) break;
        call.say(line);
        if (call.ended()) break;
        const CallRecord record = read_again(call.record());
        CHECK(record == call.record());
        TestCall other(call_rules().base(), record);
        CHECK(told(other) == told(call));
        REQUIRE(other.shown<shown::Resumed>());
        CHECK(other.shown<shown::Resumed>()->answers.size() == call.interview().told().order.size());
        CHECK(other.shown<shown::Resumed>()->misfits.empty());
        CHECK_FALSE(other.shown<shown::Resumed>()->other_version);
    }
}

TEST_CASE("a call that is paused gives no advice and stays open", "[interview]") {
    TestCall call = curious_call();
    call.say("it stinks").say("pause");
    CHECK(call.ended());
    CHECK(call.shown<shown::Paused>());
    CHECK_FALSE(call.interview().diagnosis());
    CHECK_FALSE(call.record().closed);
}

TEST_CASE("the follow-up asks what was done, whether it helped and what it was, and closes what is solved", "[interview]") {
    TestCall call(call_rules().base());
    call.say("it stinks").say("stop");
    REQUIRE(call.ended());
    TestCall again(call_rules().base(), read_again(call.record()), true);
    REQUIRE(again.shown<shown::Resumed>());
    CHECK(again.shown<shown::Resumed>()->advised);
    const auto what = [&] { return again.shown<shown::AskFollowUp>()->what; };
    CHECK(what() == shown::FollowUpQuestion::done);
    again.say("purple");
    CHECK(again.shown<shown::NotUsed>());
    again.say("2");
    CHECK(what() == shown::FollowUpQuestion::helped);
    SECTION("solved, and seen") {
        again.say("solved");
        CHECK(what() == shown::FollowUpQuestion::cause);
        again.say("1");
        CHECK(what() == shown::FollowUpQuestion::how);
        again.say("seen");
        CHECK(again.ended());
        REQUIRE(again.shown<shown::Closed>());
        CHECK(again.shown<shown::Closed>()->solved);
        CHECK(again.record().closed);
        const auto& last = again.record().course.back();
        CHECK(last.confirmed.causes == std::vector<std::string>{call.record().course.back().advice.causes.front().cause});
        CHECK(last.confirmed.how == ConfirmedCause::How::seen);
        CHECK(read_again(again.record()) == again.record());
    }
    SECTION("another cause by its name, by its remedy") {
        again.say("1").say("uncovered").say("2");
        CHECK(again.record().course.back().confirmed.causes == std::vector<std::string>{"uncovered"});
        CHECK(again.record().course.back().confirmed.how == ConfirmedCause::How::remedy_worked);
    }
    SECTION("none that is listed") {
        again.say("1").say("none").say("guess");
        CHECK(again.record().course.back().confirmed.causes.empty());
        CHECK(again.record().closed);
    }
    SECTION("solved, and nobody knows what it was") {
        again.say("1").say("don't know");
        CHECK(again.record().closed);
    }
    SECTION("not solved: it goes on with what is different now") {
        again.say("same").say("don't know");
        CHECK(what() == shown::FollowUpQuestion::go_on);
        again.say("go on");
        REQUIRE(again.shown<shown::AskOwnWords>());
        CHECK(again.shown<shown::AskOwnWords>()->news);
        again.say("it smells fine now and it is soggy");
        CHECK(again.value("smell") == "fine");
        CHECK(again.value("wet") == "yes");
        if (!again.ended()) again.say("stop");
        CHECK_FALSE(again.record().closed);
        CHECK(again.record().course.back().kind == CallEntry::Kind::advised);
    }
    SECTION("not solved, and closed all the same") {
        again.say("worse").say("don't know").say("2");
        REQUIRE(again.shown<shown::Closed>());
        CHECK_FALSE(again.shown<shown::Closed>()->solved);
    }
    SECTION("broken off after each answer it goes on after it") {
        again.say("better");
        TestCall third(call_rules().base(), read_again(again.record()), true);
        REQUIRE(third.shown<shown::AskFollowUp>());
        CHECK(third.shown<shown::AskFollowUp>()->what == shown::FollowUpQuestion::cause);
        third.say("1");
        TestCall fourth(call_rules().base(), read_again(third.record()), true);
        REQUIRE(fourth.shown<shown::AskFollowUp>());
        CHECK(fourth.shown<shown::AskFollowUp>()->what == shown::FollowUpQuestion::how);
        fourth.end();
        CHECK(fourth.shown<shown::Paused>());
        CHECK_FALSE(fourth.record().closed);
    }
}

TEST_CASE("a record of other rules is read with what still fits, and loses nothing", "[interview]") {
    TestCall call = curious_call();
    call.say("it stinks and it is soaking wet");
    CallRecord record = call.record();
    record.version = "1999.01";
    record.course.front().heard.push_back({"moon", "full", Sureness::sure, "at full moon"});
    record.course.front().heard.push_back({"wet", "lilac", Sureness::sure, "lilac"});
    TestCall other(call_rules().base(), record);
    const auto* resumed = other.shown<shown::Resumed>();
    REQUIRE(resumed);
    CHECK(resumed->other_version);
    REQUIRE(resumed->misfits.size() == 2);
    CHECK(resumed->misfits[0].find("moon=full") == 0);
    CHECK(other.value("smell") == "foul");
    CHECK(other.value("wet") == "yes");
    CHECK(other.record().course.front().heard.size() == 4);
    other.say("don't know");
    CHECK(other.record().course.front().heard.size() == 4);
}

TEST_CASE("a call that grows too long ends with advice, and its record can still be read", "[interview]") {
    TestCall call = curious_call();
    call.say("it stinks");
    for (int i = 0; i < 1000 && !call.ended(); ++i) call.say(i % 2 == 0 ? "don't know" : "back");
    CHECK(call.ended());
    CHECK(call.shown<shown::TooLong>());
    CHECK(call.record().course.size() <= longest_course);
    (void)read_again(call.record());
}

TEST_CASE("a line as long as can be is cut between two characters, and can be read again", "[interview]") {
    TestCall call = curious_call();
    std::string line = "it stinks. x";
    while (line.size() < 3 * longest_line) line += "é";
    call.say(line);
    CHECK(call.record().course.front().words.size() <= longest_line);
    CHECK(call.value("smell") == "foul");
    (void)read_again(call.record());
}

TEST_CASE("telephone numbers and addresses are left out of what is kept", "[interview]") {
    TestCall call = curious_call();
    call.say("it stinks, ring me on 0171 234 5678 or +44 (20) 7946-0018 or mail a.b@example.org, tank 3, 31 degrees");
    const std::string kept = write_call(call.record());
    for (const std::string number : {"234", "7946", "example"}) CHECK(kept.find(number) == std::string::npos);
    CHECK(kept.find("tank 3, 31 degrees") != std::string::npos);
}

}  // namespace engine_interview_test
