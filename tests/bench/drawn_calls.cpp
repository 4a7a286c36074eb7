#include "tests/bench/drawn_calls.hpp"

#include "engine/looking_ahead.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <thread>
#include <utility>
#include <variant>

namespace lidlift::bench {
namespace {

using test::Dice;

constexpr double stands_out = 0.25;  ///< background up to which a caller mentions a thing unasked
constexpr double brought_about = 2;  ///< and by how much likelier the bed's causes make it
constexpr std::size_t told_unasked = 2;

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

class World {
public:
    explicit World(const RuleBase& base) : base_(base), ranker_(base) {
        const auto& stages = base.signs[*base.stage].answers;
        for (std::size_t answer = 0; answer < stages.size(); ++answer) {
            Told told;
            if (const auto fault = hear(told, base, "stage", stages[answer].id, "drawn")) stop(fault->text);
            told_.push_back(told);
            weighed_.push_back(ranker_.rank(told.facts).weighed);
        }
    }

    [[nodiscard]] Bed draw(Dice& dice) const {
        const std::size_t stage = draw_stage(dice);
        Bed bed{told_[stage], {}, {}, {}};
        const CauseSet set = draw_set(weighed_[stage], dice);
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
        dice.shuffle(order);
        Told all = bed.told;
        for (const std::uint32_t i : order) {
            const Sign& sign = base_.signs[{i}];
            if (base_.stage == Handle<Sign>{i} || sign.answers.empty() || dice.share() < sign.hard_to_tell) continue;
            LookingAhead ahead(ranker_, all, only);
            if (sign.sort == SignSort::several)
                draw_several({i}, set, bed, dice);
            else
                draw_one({i}, ahead, bed, dice);
            if (bed.reply[i] != "?") (void)hear(all, base_, sign.id, bed.reply[i], "drawn");
        }
        return bed;
    }

private:
    std::size_t draw_stage(Dice& dice) const {
        const auto& answers = base_.signs[*base_.stage].answers;
        double at = dice.share();
        for (std::size_t i = 0; i < answers.size(); ++i)
            if ((at -= answers[i].seen_anyway.value_or(0)) < 0) return i;
        return answers.size() - 1;
    }

    /// Something is wrong, or nobody would call.
    static CauseSet draw_set(const Weighed& weighed, Dice& dice) {
        double at = dice.share() * (1 - weighed.nothing_listed);
        for (const CauseSet& set : weighed.sets)
            if (set.size > 0 && (at -= set.chance) < 0) return set;
        return weighed.sets.back();
    }

    void draw_one(Handle<Sign> handle, LookingAhead& ahead, Bed& bed, Dice& dice) const {
        const auto answers = ahead.answers(handle);
        double at = dice.share();
        for (std::size_t i = 0; i < answers.size(); ++i)
            if ((at -= answers[i].chance) < 0) {
                const Answer& answer = base_.signs[handle].answers[i];
                bed.reply[handle.index] = answer.id;
                const double background = answer.seen_anyway.value_or(1);
                bed.striking[handle.index] = background <= stands_out && answers[i].chance >= brought_about * background;
                return;
            }
    }

    void draw_several(Handle<Sign> handle, const CauseSet& set, Bed& bed, Dice& dice) const {
        const Sign& sign = base_.signs[handle];
        std::string present;
        for (const auto& feature : ranker_.features().features_of(handle)) {
            const double chance = chance_of(ranker_.model(), feature.feature, answer_set(0), set.causes());
            if (dice.share() >= chance) continue;
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
    std::vector<Told> told_;
    std::vector<Weighed> weighed_;
};

Told volunteered(const RuleBase& base, const Bed& bed, Dice& dice) {
    std::vector<std::uint32_t> striking;
    for (std::uint32_t i = 0; i < base.signs.size(); ++i)
        if (bed.reply[i] != "?" && bed.striking[i] && base.signs[{i}].effort <= Effort::touch) striking.push_back(i);
    dice.shuffle(striking);
    Told told = bed.told;
    for (std::size_t i = 0; i < striking.size() && i < told_unasked; ++i)
        (void)hear(told, base, base.signs[{striking[i]}].id, bed.reply[striking[i]], "drawn");
    return told;
}

}  // namespace

void stop(const std::string& why) {
    std::fprintf(stderr, "bench: %s\n", why.c_str());
    std::exit(1);
}

void for_each(std::size_t count, const std::function<void(std::size_t)>& work) {
    std::atomic<std::size_t> next = 0;
    std::vector<std::thread> threads(std::max(1U, std::thread::hardware_concurrency()));
    for (std::thread& thread : threads)
        thread = std::thread([&] {
            for (std::size_t i = next++; i < count; i = next++) work(i);
        });
    for (std::thread& thread : threads) thread.join();
}

std::vector<DrawnCall> draw_calls(const RuleBase& generate, const RuleBase& infer, std::size_t calls, std::uint64_t seed) {
    const World world(generate);
    std::vector<DrawnCall> result(calls);
    for_each(calls, [&](std::size_t i) {
        Dice dice(seed + i);
        result[i].bed = world.draw(dice);
        result[i].told = volunteered(infer, result[i].bed, dice);
    });
    return result;
}

RuleBase with_changed_strengths(const RuleBase& base, double deviation, std::uint64_t seed) {
    Dice dice(seed);
    RuleBase result = base;
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

WithDuplicates with_duplicated_signs(const RuleBase& base, std::uint32_t one_in, std::uint64_t seed) {
    Dice dice(seed);
    WithDuplicates result{base, {}};
    std::vector<Handle<Sign>> copy_of(base.signs.size());
    for (std::uint32_t i = 0; i < base.signs.size(); ++i) result.original.push_back({i});
    for (std::uint32_t i = 0; i < base.signs.size(); ++i) {
        if (base.stage == Handle<Sign>{i} || !dice.one_in(one_in)) continue;
        Sign copy = base.signs[{i}];
        copy.id += "_again";
        copy_of[i] = result.base.signs.add(std::move(copy));
        result.original.push_back({i});
    }
    for (std::uint32_t i = 0; i < base.causes.size(); ++i)
        for (const Link& link : base.causes[{i}].links) {
            const auto* says = std::get_if<Says>(&link.when);
            if (!says || copy_of[says->sign.index] == Handle<Sign>{}) continue;
            Link again = link;
            std::get<Says>(again.when).sign = copy_of[says->sign.index];
            result.base.causes[{i}].links.push_back(std::move(again));
        }
    return result;
}

}  // namespace lidlift::bench
