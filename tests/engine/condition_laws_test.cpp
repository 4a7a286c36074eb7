// What must hold of conditions whatever they say: knowing more never turns a settled one round, its deciders are enough and no
// more, and what is undecided is all that could still settle it. On random conditions, by trying every way in which the unknown
// may turn out.
#include "engine/condition.hpp"
#include "engine/facts.hpp"
#include "tests/catch.hpp"
#include "tests/engine/conditions.hpp"

#include <array>
#include <cstdint>
#include <random>
#include <utility>
#include <vector>

namespace engine_condition_laws_test {

using namespace lidlift;
using namespace lidlift::test;

// Random conditions over a small world in which everything can be tried: two choices of three answers, three animals at once,
// one number, two conclusions.
namespace {

constexpr std::uint32_t animals = 2;
constexpr std::uint32_t number = 3;
constexpr std::uint32_t signs = 4;
constexpr std::uint32_t conclusions_count = 2;

class World {
public:
    explicit World(std::uint64_t seed) : engine_(seed) {}

    std::uint32_t up_to(std::uint32_t most) { return static_cast<std::uint32_t>(engine_() % (most + 1U)); }

    Condition part() {
        switch (up_to(5)) {
            case 0:
                return concluded(up_to(conclusions_count - 1));
            case 1:
                return lies(number, cut());
            case 2:
                return says(animals, up_to(6) + 1);
            default:
                return says(up_to(1), up_to(5) + 1);
        }
    }
    Condition condition(int depth) {
        if (depth == 0 || up_to(4) == 0) return part();
        if (up_to(3) == 0) return negation(condition(depth - 1));
        std::vector<Condition> children;
        const std::uint32_t count = up_to(2) + 2;
        for (std::uint32_t i = 0; i < count; ++i) children.push_back(condition(depth - 1));
        return at_least_of(static_cast<int>(up_to(count - 1)) + 1, std::move(children));
    }
    /// Something, half or nothing said about each sign.
    Facts facts() {
        Facts result;
        for (std::uint32_t sign = 0; sign < 2; ++sign)
            if (up_to(2) != 0) result.set({sign}, one_of(up_to(5) + 1));
        const AnswerSet present = up_to(7);
        if (up_to(2) != 0) result.set({animals}, several(present, up_to(7) & ~present));
        if (up_to(2) != 0) result.set({number}, measured(cut()));
        return result;
    }
    std::vector<Truth> conclusions() {
        std::vector<Truth> result;
        for (std::uint32_t i = 0; i < conclusions_count; ++i) result.push_back(std::array{F, U, T}[up_to(2)]);
        return result;
    }
    /// A range with ends among 0, 2, 4; never empty.
    Range cut() {
        const double low = 2 * up_to(2);
        const double high = low + 2 * up_to(2);
        const bool point = low == high;
        return {low, high, point || up_to(1) == 0, point || up_to(1) == 0};
    }

private:
    std::mt19937_64 engine_;
};

/// Every full answer to a sign; none of them leaves anything open.
std::vector<Observation> full_answers(std::uint32_t sign) {
    std::vector<Observation> result;
    if (sign == number) {
        for (int x = -1; x <= 9; ++x) result.push_back(measured(closed(x, x)));
    } else if (sign == animals) {
        for (AnswerSet present = 0; present < 8; ++present) result.push_back(several(present, ~present & all_answers(3)));
    } else {
        for (std::size_t answer = 0; answer < 3; ++answer) result.push_back(one_of(answer_set(answer)));
    }
    return result;
}

/// Whether `full` is one of the ways in which what is known of the sign may turn out.
bool agrees(const Observation* known, const Observation& full) {
    if (known == nullptr) return true;
    if (known->measured) return known->measured->contains(*full.measured);
    if ((known->present | known->absent) != 0)
        return (known->present & ~full.present) == 0 && (known->absent & full.present) == 0;
    return known->possible == 0 || (full.possible & known->possible) != 0;
}

/// Calls `visit` with every way in which the signs marked `open` and the unknown conclusions among `open_conclusions` may turn
/// out; all else stays as it is.
template <class Visit>
void for_each_completion(const Facts& facts, const std::vector<Truth>& conclusions, const std::vector<bool>& open,
                         const std::vector<bool>& open_conclusions, const Visit& visit, std::uint32_t next = 0) {
    if (next < signs) {
        if (!open[next]) return for_each_completion(facts, conclusions, open, open_conclusions, visit, next + 1);
        for (const Observation& full : full_answers(next)) {
            if (!agrees(facts.find({next}), full)) continue;
            Facts fuller = facts;
            fuller.set({next}, full);
            for_each_completion(fuller, conclusions, open, open_conclusions, visit, next + 1);
        }
    } else if (next < signs + conclusions_count) {
        const std::uint32_t conclusion = next - signs;
        if (!open_conclusions[conclusion] || conclusions[conclusion] != U)
            return for_each_completion(facts, conclusions, open, open_conclusions, visit, next + 1);
        for (const Truth truth : {T, F}) {
            std::vector<Truth> fuller = conclusions;
            fuller[conclusion] = truth;
            for_each_completion(facts, fuller, open, open_conclusions, visit, next + 1);
        }
    } else {
        visit(facts, conclusions);
    }
}

std::vector<bool> marked(std::size_t count, const auto& handles) {
    std::vector<bool> result(count, false);
    for (const auto& handle : handles) result[handle.index] = true;
    return result;
}

std::vector<bool> inverse(std::vector<bool> marks) {
    marks.flip();
    return marks;
}

Mentions mentioned_by(const std::vector<const Condition*>& parts) {
    return mentioned(all_of([&] {
        std::vector<Condition> copies;
        for (const Condition* part : parts) copies.push_back(*part);
        return copies;
    }()));
}

}  // namespace

TEST_CASE("knowing more never turns a settled condition round", "[condition][random]") {
    World world(1);
    int settled = 0;
    int settled_by_more = 0;
    for (int i = 0; i < 400; ++i) {
        const Condition condition = world.condition(3);
        const Facts facts = world.facts();
        const std::vector<Truth> conclusions = world.conclusions();
        const Truth before = value(condition, facts, conclusions);
        settled += before != U;
        int turned = 0;
        int unsettled = 0;
        const std::vector<bool> all_signs(signs, true);
        const std::vector<bool> all_conclusions(conclusions_count, true);
        for_each_completion(facts, conclusions, all_signs, all_conclusions,
                            [&](const Facts& full, const std::vector<Truth>& derived) {
                                const Truth after = value(condition, full, derived);
                                turned += before != U && after != before;
                                unsettled += after == U;
                            });
        // One sign at a time, as answers come in.
        for (std::uint32_t sign = 0; sign < signs; ++sign) {
            std::vector<bool> only(signs, false);
            only[sign] = true;
            for_each_completion(facts, conclusions, only, std::vector<bool>(conclusions_count, false),
                                [&](const Facts& fuller, const std::vector<Truth>& derived) {
                                    const Truth after = value(condition, fuller, derived);
                                    turned += before != U && after != before;
                                    settled_by_more += before == U && after != U;
                                });
        }
        CAPTURE(i);
        CHECK(turned == 0);
        CHECK(unsettled == 0);
    }
    CHECK(settled > 100);
    CHECK(settled_by_more > 100);
}

TEST_CASE("the deciders are enough: whatever the rest turns out to be, the condition stays settled",
          "[condition][deciders][random]") {
    World world(2);
    int settled = 0;
    for (int i = 0; i < 600; ++i) {
        const Condition condition = world.condition(3);
        const Facts facts = world.facts();
        const std::vector<Truth> conclusions = world.conclusions();
        const Truth whole = value(condition, facts, conclusions);
        const std::vector<const Condition*> parts = deciders(condition, facts, conclusions);
        CAPTURE(i);
        if (whole == U) {
            CHECK(parts.empty());
            continue;
        }
        ++settled;
        // Keep only what the deciders speak of.
        const Mentions kept = mentioned_by(parts);
        Facts only;
        for (const Handle<Sign> sign : kept.signs)
            if (const Observation* seen = facts.find(sign)) only.set(sign, *seen);
        std::vector<Truth> only_derived(conclusions_count, U);
        for (const Handle<Conclusion> conclusion : kept.conclusions)
            only_derived[conclusion.index] = conclusions[conclusion.index];
        CHECK(value(condition, only, only_derived) == whole);
        int other = 0;
        for_each_completion(
            only, only_derived, inverse(marked(signs, kept.signs)), inverse(marked(conclusions_count, kept.conclusions)),
            [&](const Facts& full, const std::vector<Truth>& derived) { other += value(condition, full, derived) != whole; });
        CHECK(other == 0);
    }
    CHECK(settled > 200);
}

namespace {

/// A random condition in which every part speaks of a yes/no sign of its own, numbered from `next`.
Condition each_sign_once(World& world, int depth, std::uint32_t& next) {
    if (depth == 0 || world.up_to(4) == 0) return says(next++, world.up_to(1) == 0 ? yes : no);
    if (world.up_to(3) == 0) return negation(each_sign_once(world, depth - 1, next));
    std::vector<Condition> children;
    const std::uint32_t count = world.up_to(2) + 2;
    for (std::uint32_t i = 0; i < count; ++i) children.push_back(each_sign_once(world, depth - 1, next));
    return at_least_of(static_cast<int>(world.up_to(count - 1)) + 1, std::move(children));
}

Facts some_answers(World& world, std::uint32_t count) {
    Facts facts;
    for (std::uint32_t sign = 0; sign < count; ++sign)
        if (world.up_to(3) != 0) facts.set({sign}, one_of(world.up_to(1) == 0 ? yes : no));
    return facts;
}

}  // namespace

TEST_CASE("the deciders are no more than enough: without any one of them the condition is open",
          "[condition][deciders][random]") {
    World world(3);
    int dropped = 0;
    for (int i = 0; i < 600; ++i) {
        std::uint32_t count = 0;
        const Condition condition = each_sign_once(world, 3, count);
        const Facts facts = some_answers(world, count);
        const Truth whole = value(condition, facts);
        const std::vector<const Condition*> parts = deciders(condition, facts, {});
        CAPTURE(i);
        CHECK(parts.empty() == (whole == U));
        Facts only;
        for (const Handle<Sign> sign : mentioned_by(parts).signs) only.set(sign, *facts.find(sign));
        for (const Handle<Sign> sign : mentioned_by(parts).signs) {
            Facts less = only;
            less.forget(sign);
            CHECK(value(condition, less) == U);
            ++dropped;
        }
    }
    CHECK(dropped > 500);
}

TEST_CASE("what is undecided settles the condition, and nothing else can", "[condition][undecided][random]") {
    World world(4);
    int open_conditions = 0;
    for (int i = 0; i < 600; ++i) {
        const Condition condition = world.condition(3);
        const Facts facts = world.facts();
        const std::vector<Truth> conclusions = world.conclusions();
        const Mentions mentions = undecided(condition, facts, conclusions);
        CAPTURE(i);
        if (value(condition, facts, conclusions) != U) {
            CHECK(mentions.signs.empty());
            CHECK(mentions.conclusions.empty());
            continue;
        }
        ++open_conditions;
        const std::vector<bool> open = marked(signs, mentions.signs);
        const std::vector<bool> open_conclusions = marked(conclusions_count, mentions.conclusions);
        int still_open = 0;
        for_each_completion(
            facts, conclusions, open, open_conclusions,
            [&](const Facts& full, const std::vector<Truth>& derived) { still_open += value(condition, full, derived) == U; });
        CHECK(still_open == 0);
        int settled_by_others = 0;
        for_each_completion(facts, conclusions, inverse(open), inverse(open_conclusions),
                            [&](const Facts& full, const std::vector<Truth>& derived) {
                                settled_by_others += value(condition, full, derived) != U;
                            });
        CHECK(settled_by_others == 0);
    }
    CHECK(open_conditions > 100);
}

TEST_CASE("each undecided sign can matter: the others can turn out so that it alone decides",
          "[condition][undecided][random]") {
    World world(5);
    int tried = 0;
    for (int i = 0; i < 300; ++i) {
        std::uint32_t count = 0;
        const Condition condition = each_sign_once(world, 2, count);
        const Facts facts = some_answers(world, count);
        const Mentions mentions = undecided(condition, facts, {});
        CAPTURE(i);
        for (const Handle<Sign> sign : mentions.signs) {
            bool matters = false;
            for (std::size_t code = 0; code < std::size_t{1} << mentions.signs.size(); ++code) {
                Facts full = facts;
                for (std::size_t other = 0; other < mentions.signs.size(); ++other)
                    full.set(mentions.signs[other], one_of((code >> other & 1U) != 0 ? yes : no));
                full.set(sign, one_of(yes));
                const Truth with = value(condition, full);
                full.set(sign, one_of(no));
                matters |= value(condition, full) != with;
            }
            CHECK(matters);
            ++tried;
        }
    }
    CHECK(tried > 100);
}

}  // namespace engine_condition_laws_test
