// Looking ahead by what changes only, against weighing everything anew for every answer.
#include "engine/looking_ahead.hpp"

#include "engine/next_question.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_answers.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace engine_looking_ahead_test {

using namespace lidlift;
using namespace lidlift::test;

namespace {

constexpr LikelySets every_set = {.share = 2, .most = 1'000'000};

double entropy_of(const Weighed& weighed) {
    std::vector<double> chances;
    for (const CauseSet& set : weighed.sets) chances.push_back(set.chance);
    return entropy(chances);
}

bool known(const Told& told, Handle<Sign> sign) {
    return std::find(told.order.begin(), told.order.end(), sign) != told.order.end();
}

}  // namespace

TEST_CASE("what each answer would leave of the likely sets is what weighing them anew gives", "[looking_ahead][property]") {
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    Dice dice(20261125);
    Worst worst;
    std::size_t compared = 0;
    for (int i = 0; i < 12; ++i) {
        const Told told = told_in(base, random_answers(dice, base, dice.whole(0, 8)));
        const Ranking ranking = ranker.rank(told.facts);
        if (ranking.contradictory) continue;
        LookingAhead ahead(ranker, told, ranking);
        for (std::uint32_t s = 0; s < base.signs.size(); ++s) {
            if (known(told, {s})) continue;
            const auto answers = ahead.answers({s});
            REQUIRE(answers.size() == base.signs[Handle<Sign>{s}].answers.size());
            double all = 0;
            for (std::size_t position = 0; position < answers.size(); ++position) {
                Facts facts = told.facts;
                facts.set({s}, LookingAhead::observation(base.signs[Handle<Sign>{s}], position));
                const auto then = ranker.prepare(facts);
                const auto slow = scores(then.model, then.situation, ahead.sets());
                std::vector<double> chances;
                double sum = 0;
                for (std::size_t k = 0; k < slow.size(); ++k) {
                    chances.push_back(ahead.sets()[k].chance * std::pow(10.0, (slow[k] - ahead.sets()[k].score) / 10));
                    sum += chances.back();
                }
                for (std::size_t k = 0; k < slow.size(); ++k)
                    worst.add(answers[position].chances[k], sum > 0 ? chances[k] / sum : 0);
                all += answers[position].chance;
                ++compared;
            }
            if (!answers.empty() && all > 0) worst.add(all, 1);
        }
    }
    CHECK(compared > 1000);
    CHECK(worst.value() < 1e-9);
}

TEST_CASE("the information of a question is what re-scoring every answer gives", "[looking_ahead][next_question]") {
    // Exclusive signs of two, three and several answers, a group, an unsure answer, causes that hold a sign back.
    const RuleBase base =
        Rules()
            .sign("s1", "seen anyway: almost never")
            .sign("s2", "seen anyway: sometimes, same observation: g")
            .sign("s3", "seen anyway: sometimes, same observation: g")
            .sign(
                "s4",
                "answers: {a: {means: a, seen anyway: sometimes}, b: {means: b, seen anyway: almost never}, c: {means: c, seen "
                "anyway: the rest}}")
            .sign(
                "s5",
                "measured in: °C, plausible: 0 to 90, bands: {low: {below: 20, seen anyway: sometimes}, mid: {below: 40, seen "
                "anyway: the rest}, high: {seen anyway: almost never}}")
            .cause(
                "x",
                "how common: very common, signs: [{when: s1, seen: usually}, {when: s2, seen: almost never}, {when: s4 is a, "
                "seen: usually}]")
            .cause(
                "y",
                "signs: [{when: s1, seen: about half the time}, {when: s3, seen: usually}, {when: s5 is high, seen: usually}]")
            .cause("z", "signs: [{when: s4 is b, seen: usually}, {when: s5 is low, points: slightly}], not together with: [x]")
            .weighing("wrong when sure: 2 %, largest set: 3")
            .base();
    const Ranker ranker(base);
    for (const auto& answers :
         std::vector<std::vector<std::string>>{{}, {"s1=yes"}, {"s1=yes,unsure", "s4=not c"}, {"s3=yes", "s1=no"}}) {
        const Told told = told_in(base, answers);
        const Ranking ranking = ranker.rank(told.facts);
        LookingAhead ahead(ranker, told, ranking, every_set);
        REQUIRE(ahead.sets().size() == ranking.weighed.sets.size());
        for (const std::string id : {"s1", "s2", "s3", "s4", "s5"}) {
            const auto sign = base.signs.find(id).value();
            // The signs of one group are counted in part once another of them is known, so no exact chance belongs to them.
            const bool grouped = id == "s2" && known(told, base.signs.find("s3").value());
            if (known(told, sign) || grouped) continue;
            CAPTURE(answers, id);
            const auto feature = ranker.features().features_of(sign).front().feature;
            const auto prepared = ranker.prepare(told.facts);
            const auto chances = predicted(prepared.model, ranking.weighed, feature, base.weighing.wrong_when_sure);
            double after = 0;
            double fast_after = 0;
            const auto fast = ahead.answers(sign);
            for (std::size_t i = 0; i < chances.size(); ++i) {
                Facts facts = told.facts;
                facts.set(sign, LookingAhead::observation(base.signs[sign], i));
                after += chances[i] * entropy_of(ranker.rank(facts).weighed);
                fast_after += fast[i].chance * entropy(fast[i].chances);
                CHECK(fast[i].chance == near(chances[i], 1e-9));
            }
            const double now = entropy_of(ranking.weighed);
            const double identity = information(prepared.model, ranking.weighed, feature, base.weighing.wrong_when_sure);
            CHECK(now - after == near(identity, 1e-9));
            CHECK(now - fast_after == near(identity, 1e-9));
        }
    }
}

TEST_CASE(
    "over the default rules the bits of a question are what re-scoring the likely sets gives, grouped and concluded signs too",
    "[looking_ahead][next_question][property]") {
    // An answer's chance is taken from its background and what it does to the odds of the sets (Bayes' rule). For a sign that
    // is counted in part beside another of its group, or that acts through rules, no other chance is defined; what re-scoring
    // has to agree with is what each answer leaves of the sets.
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    constexpr double least_chance = 0.02;  // of a cause that is worth telling apart, as in next_questions
    Dice dice(20261130);
    Worst worst;
    int grouped = 0;
    int concluded = 0;
    for (int i = 0; i < 6; ++i) {
        const Told told = told_in(base, random_answers(dice, base, dice.whole(1, 5)));
        const Ranking ranking = ranker.rank(told.facts);
        if (ranking.contradictory) continue;
        std::vector<bool> matters(base.causes.size(), false);
        const bool any_raised = std::any_of(ranking.causes.begin(), ranking.causes.end(), [&](const RankedCause& cause) {
            return cause.raised() && cause.chance >= least_chance;
        });
        for (const RankedCause& cause : ranking.causes)
            matters[cause.cause.index] = cause.chance >= least_chance && (cause.raised() || !any_raised);
        LookingAhead ahead(ranker, told, ranking);
        for (const Question& question : next_questions(ranker, told, ranking, base.signs.size())) {
            const Sign& sign = base.signs[question.sign];
            const auto answers = ahead.answers(question.sign);
            std::map<std::vector<std::uint16_t>, double> before;
            double within = 0;
            for (std::size_t position = 0; position < answers.size(); ++position) {
                Facts facts = told.facts;
                facts.set(question.sign, LookingAhead::observation(sign, position));
                const auto then = ranker.prepare(facts);
                const auto slow = scores(then.model, then.situation, ahead.sets());
                std::map<std::vector<std::uint16_t>, double> after;
                double sum = 0;
                for (std::size_t s = 0; s < slow.size(); ++s) {
                    std::vector<std::uint16_t> of_interest;
                    for (const auto cause : ahead.sets()[s].causes())
                        if (matters[cause]) of_interest.push_back(cause);
                    const double chance = ahead.sets()[s].chance * std::pow(10.0, (slow[s] - ahead.sets()[s].score) / 10);
                    after[of_interest] += chance;
                    sum += chance;
                }
                std::vector<double> chances;
                for (auto& [members, chance] : after) {
                    if (sum > 0) chance /= sum;
                    before[members] += answers[position].chance * chance;
                    chances.push_back(chance);
                }
                within += answers[position].chance * entropy(chances);
            }
            std::vector<double> mixture;
            for (const auto& [members, chance] : before) mixture.push_back(chance);
            worst.add(question.bits, std::max(0.0, entropy(mixture) - within));
            grouped += !sign.same_observation.empty();
            concluded += std::any_of(base.rules.begin(), base.rules.end(), [&](const Rule& rule) {
                const auto signs = mentioned(rule.when).signs;
                return std::find(signs.begin(), signs.end(), question.sign) != signs.end();
            });
        }
    }
    CHECK(grouped > 20);
    CHECK(concluded > 20);
    CHECK(worst.value() < 1e-9);
}

TEST_CASE("where causes share a remedy, what only tells those apart is not worth asking", "[looking_ahead][next_question]") {
    const auto rules = [](const std::string& steps_of_y) {
        return Rules()
            .sign("smell", "seen anyway: almost never")
            .sign("apart", "seen anyway: sometimes")
            .step("one")
            .step("two")
            .cause("x", "signs: [{when: smell, seen: usually}, {when: apart, seen: almost always}], steps: [one]")
            .cause("y",
                   "signs: [{when: smell, seen: usually}, {when: apart, seen: almost never}], not together with: [x], steps: " +
                       steps_of_y)
            .base();
    };
    const auto bits = [](const RuleBase& base, Aim aim) {
        const Ranker ranker(base);
        const Told told = told_in(base, {"smell=yes"});
        for (const Question& question : next_questions(ranker, told, ranker.rank(told.facts), 10, aim))
            if (id_of(base.signs, question.sign) == "apart") return question.bits;
        return 0.0;
    };
    const RuleBase shared = rules("[one]");
    const RuleBase own = rules("[two]");
    CHECK(bits(shared, Aim::causes) > 0.2);
    CHECK(bits(shared, Aim::remedies) < 0.05);
    CHECK(bits(own, Aim::remedies) == near(bits(own, Aim::causes), 1e-9));
    CHECK(same_remedy(shared.causes[Handle<Cause>{0}], shared.causes[Handle<Cause>{1}], shared));
    CHECK_FALSE(same_remedy(own.causes[Handle<Cause>{0}], own.causes[Handle<Cause>{1}], own));
}

}  // namespace engine_looking_ahead_test
