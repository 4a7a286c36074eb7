#include "engine/germination.hpp"
#include "engine/tank/facts.hpp"
#include "engine/tank/figures_in_words.hpp"

#include <algorithm>
#include <map>

namespace lidlift::tank {
namespace {

const Lasting& lasting_of(const Sign& sign) {
    if (sign.topic == "set_up") return lasting_set_up;
    if (sign.topic == "product") return lasting_product;
    return lasting;
}

/// "how many days ago" is true on its own day only, and the state counts days itself.
bool counts_days(const Sign& sign) { return sign.unit && sign.unit->dimension == Dimension::time; }

/// What two looks at the same day say together: what both allow, or, where they exclude one another, what either does. The
/// order does not count.
Observation both(const Sign& sign, const Observation& a, const Observation& b) {
    Observation result = a;
    result.sureness = std::max(a.sureness, b.sureness);
    if (sign.sort == SignSort::several) {
        result.present = a.present | b.present;
        result.absent = (a.absent | b.absent) & ~result.present;
        return result;
    }
    result.possible = a.possible & b.possible;
    if (result.possible == 0) result.possible = a.possible | b.possible;
    if (!a.measured || !b.measured) {
        result.measured = a.measured ? a.measured : b.measured;
        if (result.measured) result.possible = sign.bands_meeting(*result.measured);
        return result;
    }
    Range range = *a.measured;
    if (range.meets(*b.measured)) {
        range = range.shared_with(*b.measured);
    } else {
        const Range& lower = range.low < b.measured->low ? range : *b.measured;
        const Range& upper = range.low < b.measured->low ? *b.measured : range;
        range = {lower.low, upper.high, lower.low_included, upper.high_included};
    }
    result.measured = range;
    result.possible = sign.bands_meeting(range);
    return result;
}

/// Says nothing: every answer is still possible.
bool is_empty(const Sign& sign, const Observation& observation) {
    if (sign.sort == SignSort::several) return observation.present == 0 && observation.absent == 0;
    return observation.possible == all_answers(sign.answers.size()) && !observation.measured;
}

Sureness doubted(Sureness sureness) { return sureness == Sureness::sure ? Sureness::unsure : Sureness::guess; }

struct Last {
    Day on;
    Observation observation;
    bool read = false;
};

}  // namespace

void add_noted_facts(FactList& facts, const BayKnown& known) {
    const Day today = known.state.today;
    std::map<Handle<Sign>, Last> last;
    const auto look = [&](const Seen& seen) {
        const Sign& sign = known.rule_base.signs[seen.sign];
        const auto [place, is_new] = last.try_emplace(seen.sign, Last{seen.on, *seen.observation, seen.read});
        Last& latest = place->second;
        if (is_new || seen.on < latest.on) return;
        latest = {seen.on, seen.on == latest.on ? both(sign, latest.observation, *seen.observation) : *seen.observation,
                  seen.read};
    };
    // What was seen of the tank itself holds though the bay was emptied since, and so does what was found of its compost.
    for (const Seen& seen : known.history.seen_before) {
        const std::string& topic = known.rule_base.signs[seen.sign].topic;
        if (topic == "set_up" || topic == "product") look(seen);
    }
    for (const Seen& seen : known.history.seen) look(seen);
    for (auto& [handle, seen] : last) {
        const Sign& sign = known.rule_base.signs[handle];
        const int age = days_between(seen.on, today);
        const Lasting& lasts = lasting_of(sign);
        if (age > lasts.doubtful || (counts_days(sign) && age > 0) || is_empty(sign, seen.observation)) continue;
        const bool doubtful = age > lasts.sure;
        if (doubtful) seen.observation.sureness = doubted(seen.observation.sureness);
        // What follows from the record counts for more than what was seen some days ago.
        if (doubtful && facts.has(handle)) continue;
        seen.observation.from = (seen.read ? "read on " : "seen on ") + to_text(seen.on);
        facts.set(handle, std::move(seen.observation));
    }
    if (known.history.seed_tests.empty()) return;
    const SeedTest& seeds = known.history.seed_tests.back();
    const int age = days_between(seeds.on, today);
    const auto index =
        germination_index({seeds.test.sprouted, seeds.test.root}, {seeds.test.sprouted_in_water, seeds.test.root_in_water});
    if (!index || age > lasting_product.doubtful) return;
    facts.measured("germination_index", *index, "a seed test on " + to_text(seeds.on),
                   age > lasting_product.sure ? Sureness::unsure : Sureness::sure);
}

}  // namespace lidlift::tank
