// Looking ahead by what changes only, against weighing everything anew for every answer.
#include "engine/looking_ahead.hpp"

#include "engine/next_question.hpp"
#include "tests/catch.hpp"
#include "tests/engine/random_answers.hpp"
#include "tests/engine/short_rules.hpp"
#include "tests/near.hpp"

#include <algorithm>
#include <cmath>
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
        const LookingAhead ahead(ranker, told, ranking);
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
        const LookingAhead ahead(ranker, told, ranking, every_set);
        REQUIRE(ahead.sets().size() == ranking.weighed.sets.size());
        for (const std::string id : {"s1", "s2", "s3", "s4", "s5"}) {
            const auto sign = base.signs.find(id).value();
            // The signs of one group are counted in part once another of them is known, so no exact chance belongs to them.
            const bool grouped = id == "s2" && known(told, base.signs.find("s3").value());
            if (known(told, sign) || grouped) continue;
            CAPTURE(answers, id);
            const auto feature = ranker.features_of(sign).front().feature;
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
