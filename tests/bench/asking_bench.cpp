// What asking by expected information saves: lidlift_asking_bench [CASES [LARGEST_SET [SURE]]]
//
// Cases are drawn from the default rules (causes by their chances at a stage, answers by the model), two things that stand out
// are told, and then each policy asks until its own stop. With the second table the answers are drawn from rules in which every
// strength is changed by a random amount (SD 0.7 in log-odds), so that the model is not graded on its own samples. Sets of at
// most LARGEST_SET causes are drawn and weighed (2, for speed; the program itself weighs 3).
#include "engine/asking.hpp"
#include "engine/looking_ahead.hpp"
#include "engine/rule_base_reader.hpp"
#include "engine/words.hpp"
#include "rules/default_rules.hpp"
#include "tests/engine/random_models.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace {

using namespace lidlift;
using test::Dice;

constexpr std::uint64_t seed = 20261125;
constexpr double stands_out = 0.25;  ///< background up to which a caller mentions a thing unasked
constexpr double brought_about = 2;  ///< and by how much likelier the bed's causes make it
constexpr std::size_t no_end = 10000;

[[noreturn]] void stop(const std::string& why) {
    std::fprintf(stderr, "bench: %s\n", why.c_str());
    std::exit(1);
}

/// Normal, by the polar method, so that every standard library draws the same.
double normal(Dice& dice) {
    while (true) {
        const double x = dice.between(-1, 1);
        const double y = dice.between(-1, 1);
        const double square = x * x + y * y;
        if (square > 0 && square < 1) return x * std::sqrt(-2 * std::log(square) / square);
    }
}

double shaken(double chance, double noise) {
    return std::clamp(1 / (1 + std::exp(-(std::log(chance / (1 - chance)) + noise))), 0.004, 0.985);
}

/// Every link, circumstance and commonness changed by noise of the given SD in log-odds.
RuleBase changed_strengths(const RuleBase& base, double deviation, Dice& dice) {
    RuleBase result = base;
    const Ranker ranker(base);
    for (std::uint32_t i = 0; i < base.causes.size(); ++i) {
        Cause& cause = result.causes[{i}];
        cause.how_common = shaken(cause.how_common, deviation * normal(dice));
        for (Circumstance& circumstance : cause.made_likelier_by)
            circumstance.weight += deviation * normal(dice) * 10 / std::log(10.0);
        for (Link& link : cause.links) {
            double background = 0;
            if (const auto* concluded = std::get_if<Concluded>(&link.when)) {
                background = base.conclusions[concluded->conclusion].seen_anyway.value_or(0.5);
            } else {
                const Says& says = std::get<Says>(link.when);
                const auto& answers = base.signs[says.sign].answers;
                for (std::size_t answer = 0; answer < answers.size(); ++answer)
                    if ((says.answers & answer_set(answer)) != 0) background += answers[answer].seen_anyway.value_or(0);
            }
            const double chance = link.seen.value_or(background * link.factor);
            if (chance > 0 && chance < 1) link.seen = shaken(chance, deviation * normal(dice));
        }
    }
    return result;
}

/// A bed: what ails it, and what a person would say to every question.
struct Bed {
    Told told;  ///< the stage
    std::vector<std::uint16_t> causes;
    std::vector<std::string> reply;  ///< by sign: as after '='; "?" where the person cannot tell
    std::vector<bool> striking;      ///< by sign: the reply is rare otherwise, and the bed's causes make it likelier
};

class World {
public:
    World(const RuleBase& base, Dice& dice) : base_(base), ranker_(base), dice_(dice) {
        const auto& stages = base.signs[*base.stage].answers;
        for (std::size_t answer = 0; answer < stages.size(); ++answer) {
            Told told;
            if (const auto fault = hear(told, base, "stage", stages[answer].id, "drawn")) stop(fault->text);
            told_.push_back(told);
            weighed_.push_back(ranker_.rank(told.facts).weighed);
        }
    }

    Bed draw() {
        const std::size_t stage = draw_stage();
        Bed bed{told_[stage], {}, {}, {}};
        const CauseSet set = draw_set(weighed_[stage]);
        bed.causes.assign(set.causes().begin(), set.causes().end());
        Ranking only;
        only.weighed.sets = {set};
        only.weighed.sets.front().chance = 1;
        bed.reply.assign(base_.signs.size(), "?");
        bed.striking.assign(base_.signs.size(), false);
        // One sign after the other, each given those drawn before, so that what rules conclude from several signs, and signs of
        // one observation, hang together as the model has it.
        std::vector<std::uint32_t> order(base_.signs.size());
        for (std::uint32_t i = 0; i < order.size(); ++i) order[i] = i;
        dice_.shuffle(order);
        Told all = bed.told;
        for (const std::uint32_t i : order) {
            const Sign& sign = base_.signs[{i}];
            if (base_.stage == Handle<Sign>{i} || sign.answers.empty() || dice_.share() < sign.hard_to_tell) continue;
            const LookingAhead ahead(ranker_, all, only);
            if (sign.sort == SignSort::several)
                draw_several({i}, set, ahead, bed);
            else
                draw_one({i}, ahead, bed);
            if (bed.reply[i] != "?") (void)hear(all, base_, sign.id, bed.reply[i], "drawn");
        }
        return bed;
    }

private:
    std::size_t draw_stage() {
        const auto& answers = base_.signs[*base_.stage].answers;
        double at = dice_.share();
        for (std::size_t i = 0; i < answers.size(); ++i)
            if ((at -= answers[i].seen_anyway.value_or(0)) < 0) return i;
        return answers.size() - 1;
    }

    /// Something is wrong, or nobody would call.
    CauseSet draw_set(const Weighed& weighed) {
        double at = dice_.share() * (1 - weighed.nothing_listed);
        for (const CauseSet& set : weighed.sets)
            if (set.size > 0 && (at -= set.chance) < 0) return set;
        return weighed.sets.back();
    }

    void draw_one(Handle<Sign> handle, const LookingAhead& ahead, Bed& bed) {
        const auto answers = ahead.answers(handle);
        double at = dice_.share();
        for (std::size_t i = 0; i < answers.size(); ++i)
            if ((at -= answers[i].chance) < 0) {
                const Answer& answer = base_.signs[handle].answers[i];
                bed.reply[handle.index] = answer.id;
                const double background = answer.seen_anyway.value_or(1);
                bed.striking[handle.index] = background <= stands_out && answers[i].chance >= brought_about * background;
                return;
            }
    }

    void draw_several(Handle<Sign> handle, const CauseSet& set, const LookingAhead& ahead, Bed& bed) {
        const Sign& sign = base_.signs[handle];
        std::string present;
        for (const auto& feature : ranker_.features_of(handle)) {
            const double chance = chance_of(ahead.now().model, feature.feature, answer_set(0), set.causes());
            if (dice_.share() >= chance) continue;
            const Answer& answer = sign.answers[*feature.answer];
            present += (present.empty() ? "" : ",") + answer.id;
            const double background = answer.seen_anyway.value_or(1);
            if (background <= stands_out && chance >= brought_about * background) bed.striking[handle.index] = true;
        }
        for (const Answer& answer : sign.answers)
            if (present.empty() && answer.none_of_these) present = answer.id;
        if (present.empty()) return;
        bed.reply[handle.index] = present;
    }

    const RuleBase& base_;
    Ranker ranker_;
    Dice& dice_;
    std::vector<Told> told_;
    std::vector<Weighed> weighed_;
};

/// Two things that stand out, are of the bed's causes and need no tool: told without being asked, being why the person calls.
Told volunteered(const RuleBase& base, const Bed& bed, Dice& dice) {
    std::vector<std::uint32_t> striking;
    for (std::uint32_t i = 0; i < base.signs.size(); ++i)
        if (bed.reply[i] != "?" && bed.striking[i] && base.signs[{i}].effort <= Effort::touch) striking.push_back(i);
    dice.shuffle(striking);
    Told told = bed.told;
    for (std::size_t i = 0; i < striking.size() && i < 2; ++i)
        (void)hear(told, base, base.signs[{striking[i]}].id, bed.reply[striking[i]], "drawn");
    return told;
}

enum class Policy { ours, no_cost, fixed_of_worth, random_of_worth, fixed_all };

struct Outcome {
    std::size_t questions = 0;
    double effort = 0;
    bool hit = false;
    std::optional<StopReason> why;
};

class Caller {
public:
    Caller(const Ranker& ranker, const AskingLimits& limits) : ranker_(ranker), base_(ranker.rule_base()), limits_(limits) {}

    Outcome call(const Bed& bed, Told told, Policy policy, Dice& dice) const {
        Outcome outcome;
        std::string_view topic;
        Ranking ranking;
        const std::vector<Handle<Sign>> called_about = told.order;
        while (true) {
            ranking = ranker_.rank(told.facts);
            const auto sign = next(told, ranking, outcome, topic, called_about, policy, dice);
            if (!sign) break;
            topic = base_.signs[*sign].topic;
            ++outcome.questions;
            outcome.effort += minutes(base_.signs[*sign].effort);
            if (hear(told, base_, base_.signs[*sign].id, bed.reply[sign->index], "drawn"))
                (void)hear(told, base_, base_.signs[*sign].id, "?", "drawn");
        }
        outcome.hit =
            !ranking.causes.empty() && std::ranges::find(bed.causes, ranking.causes.front().cause.index) != bed.causes.end();
        return outcome;
    }

private:
    std::optional<Handle<Sign>> next(const Told& told, const Ranking& ranking, Outcome& outcome, std::string_view topic,
                                     const std::vector<Handle<Sign>>& called_about, Policy policy, Dice& dice) const {
        if (ranking.contradictory) return std::nullopt;
        if (policy == Policy::ours) {
            const NextStep step = next_step(ranker_, told, ranking, outcome.questions, topic, called_about, limits_);
            outcome.why = step.stop;
            return step.ask;
        }
        if (sure_enough(base_, ranking, limits_)) return std::nullopt;
        auto questions = next_questions(ranker_, told, ranking, base_.signs.size(), Aim::remedies);
        std::erase_if(questions, [&](const Question& question) {
            return question.bits * (1 - base_.signs[question.sign].hard_to_tell) < limits_.least_bits;
        });
        if (questions.empty() || outcome.questions >= limits_.most_questions ||
            !an_answer_may_change_the_steps(ranker_, told, ranking, questions, limits_))
            return std::nullopt;
        switch (policy) {
            case Policy::no_cost:
                return std::ranges::max_element(questions, {}, &Question::bits)->sign;
            case Policy::fixed_of_worth:
                return std::ranges::min_element(questions, {}, [](const Question& q) { return q.sign.index; })->sign;
            case Policy::random_of_worth:
                return questions[dice.whole(0, static_cast<std::uint32_t>(questions.size()) - 1)].sign;
            default:
                break;
        }
        // The whole list from top to bottom, whether a question bears on the likely causes or not.
        for (std::uint32_t i = 0; i < base_.signs.size(); ++i) {
            const bool asked = std::ranges::find(told.order, Handle<Sign>{i}) != told.order.end();
            if (!asked && !base_.signs[{i}].answers.empty()) return Handle<Sign>{i};
        }
        return std::nullopt;
    }

    const Ranker& ranker_;
    const RuleBase& base_;
    AskingLimits limits_;
};

struct Row {
    const char* name;
    Policy policy;
    std::size_t one_in;  ///< only every so many-th case, where it would take too long
};

/// A drawn bed and what its owner tells unasked.
struct Case {
    Bed bed;
    Told told;
};

std::vector<Case> draw(const RuleBase& generate, const RuleBase& infer, int cases) {
    Dice dice(seed);
    World world(generate, dice);
    std::vector<Case> result;
    for (int i = 0; i < cases; ++i) {
        Bed bed = world.draw();
        Told told = volunteered(infer, bed, dice);
        result.push_back({std::move(bed), std::move(told)});
    }
    return result;
}

void table(const char* title, const std::vector<Case>& beds, const RuleBase& infer, const AskingLimits& limits) {
    const int cases = static_cast<int>(beds.size());
    static const std::vector<Row> rows = {{"by information for effort (ours)", Policy::ours, 1},
                                          {"by information alone, no cost", Policy::no_cost, 1},
                                          {"in fixed order, of those worth asking", Policy::fixed_of_worth, 1},
                                          {"in random order, of those worth asking", Policy::random_of_worth, 1},
                                          {"in fixed order, the whole list", Policy::fixed_all, 5}};
    const Ranker ranker(infer);
    const Caller caller(ranker, limits);
    std::printf("\n%s, %d cases\n%-42s %9s %8s %7s %8s\n", title, cases, "", "questions", "effort", "hit %", "of fixed");
    double fixed = 0;
    std::vector<std::string> lines;
    std::map<StopReason, int> reasons;
    for (const Row& row : rows) {
        Dice dice(seed);
        double questions = 0;
        double effort = 0;
        int hits = 0;
        int done = 0;
        for (std::size_t i = 0; i < beds.size(); i += row.one_in) {
            const Bed& bed = beds[i].bed;
            Told told = beds[i].told;
            const Outcome outcome = caller.call(bed, std::move(told), row.policy, dice);
            questions += static_cast<double>(outcome.questions);
            effort += outcome.effort;
            hits += outcome.hit;
            ++done;
            if (row.policy == Policy::ours && outcome.why) ++reasons[*outcome.why];
        }
        if (row.policy == Policy::fixed_of_worth) fixed = questions / done;
        char line[200];
        std::snprintf(line, sizeof line, "%-42s %9.1f %8.1f %7.1f", row.name, questions / done, effort / done,
                      100.0 * hits / done);
        lines.emplace_back(line);
        lines.back() += "@" + std::to_string(questions / done);
    }
    for (const std::string& line : lines) {
        const auto at = line.find('@');
        std::printf("%s %7.0f%%\n", line.substr(0, at).c_str(), 100 * std::atof(line.c_str() + at + 1) / fixed);
    }
    static constexpr const char* words[] = {"sure enough", "nothing worth asking", "nothing would change", "enough questions"};
    std::printf("why ours stops:");
    for (const auto& [reason, count] : reasons)
        std::printf(" %s %.0f %%;", words[static_cast<std::size_t>(reason)], 100.0 * count / cases);
    std::printf("\n");
    std::fflush(stdout);
}

double median_milliseconds(const std::function<void()>& work) {
    std::vector<double> times;
    for (int i = 0; i < 15; ++i) {
        const auto start = std::chrono::steady_clock::now();
        work();
        times.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
    }
    std::ranges::sort(times);
    return times[times.size() / 2];
}

/// Choosing against one scoring, on the whole default base as it is.
void ratios(const RuleBase& base) {
    const Ranker ranker(base);
    std::printf("choosing the next question, against weighing once      choose    with reasons to stop\n");
    for (const std::vector<const char*>& answers :
         std::vector<std::vector<const char*>>{{"smell_ammonia=strong"},
                                               {"smell_rotten=strong", "squeeze=stream"},
                                               {"worm_place=up_walls_lid", "smell_sour=strong", "stage=worm_bed"}}) {
        Told told;
        std::string name;
        for (const char* answer : answers) {
            if (const auto fault = hear_argument(told, base, answer)) stop(fault->text);
            name += (name.empty() ? "" : " ") + std::string(answer);
        }
        Ranking ranking;
        const double weigh_once = median_milliseconds([&] {
            const auto prepared = ranker.prepare(told.facts);
            (void)weigh(prepared.model, prepared.situation);
        });
        ranking = ranker.rank(told.facts);
        const double choose =
            median_milliseconds([&] { (void)next_questions(ranker, told, ranking, base.signs.size(), Aim::remedies); });
        const double step = median_milliseconds([&] { (void)next_step(ranker, told, ranking, 0, {}); });
        std::printf("%-52s %8.2f %12.2f   (%.1f ms, once %.1f ms)\n", name.substr(0, 52).c_str(), choose / weigh_once,
                    step / weigh_once, step, weigh_once);
    }
}

}  // namespace

int main(int argc, char** argv) {
    const int cases = argc > 1 ? std::max(1, std::atoi(argv[1])) : 200;
    RuleBaseReading reading = read_rule_base(default_rules());
    if (!reading.complaints.empty()) stop(to_text(reading.complaints.front()));
    RuleBase& base = reading.rule_base;
    ratios(base);
    base.weighing.largest_set = argc > 2 ? std::atoi(argv[2]) : 2;
    AskingLimits limits;
    if (argc > 3) limits.sure = std::atof(argv[3]);
    limits.most_questions = no_end;
    Dice dice(seed);
    const RuleBase changed = changed_strengths(base, 0.7, dice);
    const std::vector<Case> same = draw(base, base, cases);
    const std::vector<Case> other = draw(changed, base, cases);
    table("answers drawn from the same rules, no limit of questions", same, base, limits);
    table("answers drawn from rules with other strengths, no limit", other, base, limits);
    limits.most_questions = AskingLimits{}.most_questions;
    table("answers drawn from rules with other strengths, ten questions", other, base, limits);
}
