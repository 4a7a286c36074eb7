#include "engine/tank/moisture.hpp"

#include "engine/tank/contents.hpp"
#include "engine/tank/figures_in_words.hpp"

#include <algorithm>
#include <bit>

namespace lidlift::tank {
namespace {

/// The last day's samples together: from the driest to the wettest.
std::optional<Estimate> last_of(const std::vector<Weighed>& samples, Day today, double spread, Day& on) {
    if (samples.empty()) return std::nullopt;
    on = std::ranges::max_element(samples, {}, &Weighed::on)->on;
    if (days_between(on, today) > oldest_sample) return std::nullopt;
    double low = 0;
    double high = 0;
    double sum = 0;
    int count = 0;
    for (const Weighed& sample : samples) {
        if (sample.on != on) continue;
        low = count == 0 ? sample.value : std::min(low, sample.value);
        high = std::max(high, sample.value);
        sum += sample.value;
        ++count;
    }
    return Estimate{std::max(0.0, low - spread), sum / count, high + spread};
}

/// The last squeeze; of one day the widest that the answers allow.
std::optional<Estimate> squeezed(const BayHistory& history, const RuleBase& rule_base, Day today, Day& on) {
    const auto sign = rule_base.signs.find("squeeze");
    if (!sign) return std::nullopt;
    std::optional<Estimate> result;
    for (const Seen& seen : history.seen) {
        if (seen.sign != *sign || days_between(seen.on, today) > oldest_squeeze) continue;
        if (!result || seen.on != on) result.reset();
        on = seen.on;
        const auto& answers = rule_base.signs[*sign].answers;
        for (std::size_t i = 0; i < answers.size(); ++i) {
            if ((seen.observation->possible & answer_set(i)) == 0) continue;
            const auto wet = moisture_by_squeeze(answers[i].id);
            if (!wet) continue;
            result = result ? Estimate{std::min(result->low, wet->low), (result->typical + wet->typical) / 2,
                                       std::max(result->high, wet->high)}
                            : *wet;
        }
    }
    return result;
}

}  // namespace

std::optional<Estimate> moisture_by_squeeze(std::string_view answer) {
    if (answer == "dry_crumbles") return Estimate{25, 45, 60};
    if (answer == "holds_no_drop") return Estimate{50, 63, 72};
    if (answer == "few_drops") return Estimate{68, 76, 84};
    if (answer == "stream") return Estimate{80, 87, 95};
    return std::nullopt;
}

void add_moisture(BayState& state, const BayHistory& history, const RuleBase& rule_base, Day today) {
    Day on;
    if (const auto density = last_of(history.densities, today, 0, on))
        state.density = {*density, "a bucket weighed on " + to_text(on)};
    if (history.loads.empty()) return;
    std::optional<Estimate> wet = last_of(history.moistures, today, spread_of_a_sample, on);
    if (wet) {
        wet->high = std::min(wet->high, 99.0);
        wet->typical = std::min(wet->typical, wet->high);
        state.moisture = {*wet, "a sample dried on " + to_text(on)};
    } else if ((wet = squeezed(history, rule_base, today, on))) {
        state.moisture = {*wet, "by the squeeze of " + to_text(on)};
    } else {
        return;
    }
    state.kg->value = left_of(history.loads, rule_base, today, wet).kg;
}

}  // namespace lidlift::tank
