#include "engine/tank/fact_list.hpp"

#include <algorithm>

namespace lidlift::tank {

const Sign* FactList::find(std::string_view sign) const {
    const auto handle = rule_base_.signs.find(sign);
    return handle ? &rule_base_.signs[*handle] : nullptr;
}

void FactList::set(Handle<Sign> sign, Observation observation) {
    observation.from = std::string(from_the_record) + observation.from;
    facts_[sign] = std::move(observation);
}

void FactList::answer(std::string_view sign_id, const std::vector<std::string_view>& answers, const std::string& how,
                      Sureness sureness) {
    const auto handle = rule_base_.signs.find(sign_id);
    if (!handle) return;
    const Sign& sign = rule_base_.signs[*handle];
    if (sign.sort != SignSort::one_of && sign.sort != SignSort::yes_no) return;
    Observation observation;
    for (const std::string_view answer : answers)
        if (const auto position = sign.find_answer(answer)) observation.possible |= answer_set(*position);
    if (observation.possible == 0 || observation.possible == all_answers(sign.answers.size())) return;
    observation.sureness = sureness;
    observation.from = how;
    set(*handle, std::move(observation));
}

void FactList::on_scale(std::string_view sign, const Estimate& figure, const std::vector<FromOn>& scale, const std::string& how,
                        Sureness sureness) {
    std::vector<std::string_view> answers;
    for (std::size_t i = 0; i < scale.size(); ++i) {
        const bool last = i + 1 == scale.size();
        if (figure.high >= scale[i].from && (last || figure.low < scale[i + 1].from)) answers.push_back(scale[i].answer);
    }
    answer(sign, answers, how, sureness);
}

void FactList::measured(std::string_view sign_id, const Range& range, const std::string& how, Sureness sureness) {
    const auto handle = rule_base_.signs.find(sign_id);
    if (!handle) return;
    const Sign& sign = rule_base_.signs[*handle];
    if (sign.sort != SignSort::quantity || !sign.plausible.meets(range)) return;
    Observation observation;
    observation.measured = sign.plausible.shared_with(range);
    observation.possible = sign.bands_meeting(*observation.measured);
    if (observation.possible == 0) return;
    observation.sureness = sureness;
    observation.from = how;
    set(*handle, std::move(observation));
}

std::vector<TankFact> FactList::take() const {
    std::vector<TankFact> facts;
    for (const auto& [sign, observation] : facts_) facts.push_back({sign, observation});
    return facts;
}

}  // namespace lidlift::tank
