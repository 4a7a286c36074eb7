// A list of facts in the making: answers by name, left out where the rule base has no such sign or answer.
#pragma once

#include "engine/tank/bay_history.hpp"
#include "engine/tank_facts.hpp"

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift::tank {

/// From which figure on which answer holds: {{"light", 0}, {"normal", 0.25}, ...}, rising.
struct FromOn {
    std::string_view answer;
    double from = 0;
};

class FactList {
public:
    explicit FactList(const RuleBase& rule_base) : rule_base_(rule_base) {}

    /// One of these answers, for a one-of or a yes/no sign. Says nothing where that would be all of them.
    void answer(std::string_view sign, const std::vector<std::string_view>& answers, const std::string& how,
                Sureness sureness = Sureness::sure);
    /// All answers whose stretch of the scale the figure's range meets.
    void on_scale(std::string_view sign, const Estimate& figure, const std::vector<FromOn>& scale, const std::string& how,
                  Sureness sureness = Sureness::sure);
    /// A number or a range of it, kept to what the sign takes for plausible.
    void measured(std::string_view sign, const Range& range, const std::string& how, Sureness sureness = Sureness::sure);
    void measured(std::string_view sign, double number, const std::string& how, Sureness sureness = Sureness::sure) {
        measured(sign, Range{number, number, true, true}, how, sureness);
    }
    /// Takes the place of what there is.
    void set(Handle<Sign> sign, Observation observation);

    [[nodiscard]] bool has(Handle<Sign> sign) const { return facts_.contains(sign); }
    [[nodiscard]] const Sign* find(std::string_view sign) const;
    [[nodiscard]] std::vector<TankFact> take() const;

private:
    const RuleBase& rule_base_;
    std::map<Handle<Sign>, Observation> facts_;
};

/// What is known of a bay, for those who make facts of it.
struct BayKnown {
    const TankRecord& record;
    const TankState& state;
    const RuleBase& rule_base;
    std::size_t bay;
    const BayHistory& history;
    [[nodiscard]] const BayState& now() const { return state.bays[bay]; }
};

}  // namespace lidlift::tank
