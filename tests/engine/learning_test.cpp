// What closed calls teach: the counts by hand, what is proposed and what is not, and the calibration of what was said.
#include "engine/learning.hpp"

#include "engine/words.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/near.hpp"

namespace engine_learning_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

/// Two causes; `wet` is said to show puddles usually, `dry` points to dust strongly.
const RuleBase& base() {
    static const RuleBase made = Rules()
                                     .sign("puddles", "seen anyway: sometimes")
                                     .sign("dust", "seen anyway: almost never")
                                     .sign("ants", "seen anyway: sometimes")
                                     .cause("wet", "signs: [{when: puddles, seen: usually}]")
                                     .cause("dry", "signs: [{when: dust, points: strongly}]")
                                     .base();
    return made;
}

Handle<Cause> cause(const char* id) { return *base().causes.find(id); }

ClosedCall call(std::vector<std::string> told, std::vector<const char*> causes, std::vector<StatedChance> stated = {},
                Confirmed confirmed = Confirmed::seen) {
    ClosedCall result;
    Told heard;
    for (const std::string& one : told)
        if (hear_argument(heard, base(), one)) throw std::runtime_error("cannot hear " + one);
    result.facts = heard.facts;
    result.stated = std::move(stated);
    for (const char* id : causes) result.causes.push_back(cause(id));
    result.confirmed = confirmed;
    return result;
}

void add(std::vector<ClosedCall>& calls, std::size_t times, const ClosedCall& one) { calls.insert(calls.end(), times, one); }

const LinkCount* link_of(const std::vector<LinkCount>& links, const char* id) {
    for (const LinkCount& link : links)
        if (link.cause == cause(id)) return &link;
    return nullptr;
}

}  // namespace

TEST_CASE("nothing is learnt from no calls", "[learning]") {
    const Learnt learnt = learn_from(base(), {});
    CHECK(learnt.closed == 0);
    CHECK(learnt.counted == 0);
    CHECK(learnt.links.empty());
    CHECK(learnt.nearest.empty());
    CHECK(learnt.links_in_all == 2);
    CHECK_FALSE(learnt.slope);
}

TEST_CASE("guesses are left out, and hits are counted by place", "[learning]") {
    std::vector<ClosedCall> calls;
    add(calls, 3, call({}, {"wet"}, {{cause("wet"), 0.7}, {cause("dry"), 0.1}}));
    add(calls, 2, call({}, {"dry"}, {{cause("wet"), 0.7}, {cause("dry"), 0.1}}));
    add(calls, 1, call({}, {"dry"}, {{cause("wet"), 0.7}}));
    add(calls, 4, call({}, {}, {{cause("wet"), 0.7}}));
    add(calls, 5, call({}, {"wet"}, {{cause("dry"), 0.97}}, Confirmed::guess));
    const Learnt learnt = learn_from(base(), calls);
    CHECK(learnt.closed == 15);
    CHECK(learnt.guesses == 5);
    CHECK(learnt.counted == 10);
    CHECK(learnt.none_listed == 4);
    CHECK(learnt.with_cause == 6);
    CHECK(learnt.first == 3);
    CHECK(learnt.among_three == 5);
    CHECK(learnt.mean_rank == near((3 * 1 + 2 * 2 + 1 * 2) / 6.0, 1e-12));
    // "likely (55-80 %)" was said ten times and was right three times; "very unlikely" five times, right twice.
    REQUIRE(learnt.words.size() == 2);
    CHECK(learnt.words[0].words == likelihood_words(0.1));
    CHECK(learnt.words[0].bin.count == 5);
    CHECK(learnt.words[0].bin.came_true == 2);
    CHECK(learnt.words[1].words == likelihood_words(0.7));
    CHECK(learnt.words[1].bin.count == 10);
    CHECK(learnt.words[1].bin.came_true == 3);
    CHECK(learnt.forecasts == 15);
    CHECK(learnt.brier.score == near((3 * .09 + 7 * .49 + 3 * .01 + 2 * .81) / 15, 1e-12));
}

TEST_CASE("a word is proposed only from enough calls that speak against it", "[learning]") {
    std::vector<ClosedCall> calls;
    // 4 of 20 show puddles where "usually" (0.8) was said: Wilson's interval of 4 of 20 ends at 0.42.
    add(calls, 4, call({"puddles=yes"}, {"wet"}));
    add(calls, 15, call({"puddles=no"}, {"wet"}));
    add(calls, 30, call({}, {"wet"}));  // not asked: counts for nothing
    Learnt learnt = learn_from(base(), calls);
    CHECK(learnt.links.empty());
    REQUIRE(learnt.nearest.size() == 1);
    CHECK(learnt.nearest[0].there == 19);

    add(calls, 1, call({"puddles=no"}, {"wet"}));
    learnt = learn_from(base(), calls);
    REQUIRE(learnt.links.size() == 1);
    const LinkCount& link = learnt.links.front();
    CHECK(link.there == 20);
    CHECK(link.there_seen == 4);
    CHECK(link.chance_now == 0.8);
    CHECK(link.interval.high == near(wilson(4, 20).high, 1e-12));
    // (10 * 0.8 + 4) / 30 = 0.4, in log odds nearer to "about half the time" (0.5) than to "sometimes" (0.2).
    CHECK(link.proposed == "seen about half the time");

    // 16 of 20 agree with the word.
    calls.clear();
    add(calls, 16, call({"puddles=yes"}, {"wet"}));
    add(calls, 4, call({"puddles=no"}, {"wet"}));
    learnt = learn_from(base(), calls);
    REQUIRE(learnt.links.size() == 1);
    CHECK(learnt.links.front().proposed.empty());
}

TEST_CASE("only calls with that one cause count for a link, and calls without its kind for the background", "[learning]") {
    std::vector<ClosedCall> calls;
    add(calls, 20, call({"puddles=yes"}, {"wet"}));
    add(calls, 7, call({"puddles=yes"}, {"wet", "dry"}));  // which of the two showed it?
    add(calls, 3, call({"puddles=yes"}, {"dry"}));
    add(calls, 9, call({"puddles=no"}, {}));
    const Learnt learnt = learn_from(base(), calls);
    const LinkCount* link = link_of(learnt.links, "wet");
    REQUIRE(link);
    CHECK(link->there == 20);
    CHECK(link->there_seen == 20);
    CHECK(link->without == 12);
    CHECK(link->without_seen == 3);
    CHECK(link->ratios.corrected);
    CHECK(link->ratios.seen.ratio == near((20.5 / 21) / (3.5 / 13), 1e-9));
}

TEST_CASE("a pointing word moves along its own scale, and never beyond what the background leaves room for", "[learning]") {
    std::vector<ClosedCall> calls;
    add(calls, 1, call({"dust=yes"}, {"dry"}));
    add(calls, 59, call({"dust=no"}, {"dry"}));
    Learnt learnt = learn_from(base(), calls);
    const LinkCount* link = link_of(learnt.links, "dry");
    REQUIRE(link);
    CHECK(link->chance_now == near(0.25, 1e-12));  // 10 times 0.025
    // (10 * 0.25 + 1) / 70 = 0.05, twice the background.
    CHECK(link->proposed == "points slightly");
    calls.clear();
    add(calls, 60, call({"dust=yes"}, {"dry"}));
    learnt = learn_from(base(), calls);
    // (2.5 + 60) / 70 = 0.89, 36 times the background; the strongest word, 31.6 times, fits under 0.985.
    REQUIRE(link_of(learnt.links, "dry"));
    CHECK(link_of(learnt.links, "dry")->proposed == "points very strongly");
    const RuleBase changed = with_proposals(base(), learnt);
    const Link& new_link = changed.causes[cause("dry")].links.front();
    CHECK(new_link.words == "points very strongly");
    CHECK(new_link.factor == near(*odds_factor("very strongly"), 1e-9));
    CHECK(changed.causes[cause("wet")].links.front().seen == base().causes[cause("wet")].links.front().seen);
}

TEST_CASE("slopes and commonness wait for a hundred calls", "[learning]") {
    std::vector<ClosedCall> calls;
    add(calls, 70, call({}, {"wet"}, {{cause("wet"), 0.95}, {cause("dry"), 0.02}}));
    add(calls, 29, call({}, {"dry"}, {{cause("wet"), 0.95}, {cause("dry"), 0.02}}));
    CHECK_FALSE(learn_from(base(), calls).slope);
    add(calls, 1, call({}, {"dry"}, {{cause("wet"), 0.95}, {cause("dry"), 0.02}}));
    const Learnt learnt = learn_from(base(), calls);
    REQUIRE(learnt.slope);
    CHECK(learnt.slope->slope == least_slope);  // far too sure, but never shrunk further at once
    REQUIRE(learnt.causes.size() == 2);
    CHECK(learnt.causes[0].cause == cause("wet"));
    CHECK(learnt.causes[0].confirmed == 70);
    CHECK(learnt.causes[0].proposed == "very common");  // of 100 calls 70, where "common" says 10
    CHECK(with_proposals(base(), learnt).causes[cause("wet")].how_common == *commonness("very common"));
}

}  // namespace engine_learning_test
