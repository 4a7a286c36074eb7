#include "engine/round.hpp"

#include "engine/tank_facts.hpp"

#include <algorithm>
#include <tuple>
#include <utility>

namespace lidlift {
namespace {

/// The likeliest root that needs mending; none below an even chance, or where nothing is wrong.
std::optional<FoundCause> found_in(const RuleBase& base, const Diagnosis& diagnosis, std::size_t bay) {
    if (diagnosis.advice.verdict == Verdict::nothing_wrong || diagnosis.ranking.contradictory) return std::nullopt;
    std::optional<FoundCause> found;
    for (const RankedCause& ranked : diagnosis.ranking.causes) {
        if (ranked.follows_from || !ranked.raised() || base.causes[ranked.cause].benign || ranked.chance < found_from) continue;
        found = FoundCause{bay, ranked.cause, ranked.chance, {}};
        break;
    }
    if (found)
        for (const RankedCause& ranked : diagnosis.ranking.causes)
            if (ranked.follows_from == found->cause && ranked.there >= found_from) found->brings.push_back(ranked.cause);
    return found;
}

void add_once(std::vector<Handle<Caution>>& list, Handle<Caution> caution) {
    if (std::ranges::find(list, caution) == list.end()) list.push_back(caution);
}

void diagnose_bays(const Ranker& ranker, TankToday& tank) {
    const RuleBase& base = ranker.rule_base();
    for (std::size_t bay = 0; bay < tank.state.bays.size(); ++bay) {
        auto& diagnosis = tank.diagnoses.emplace_back();
        if (tank.state.bays[bay].stage == BayStage::empty) continue;
        diagnosis.emplace();
        add_facts(diagnosis->told, facts_of(*tank.tank.record, tank.state, base, bay), base);
        diagnosis->ranking = ranker.rank_in_brief(diagnosis->told.facts);
        diagnosis->advice = advise(base, diagnosis->told, diagnosis->ranking);
        if (auto found = found_in(base, *diagnosis, bay)) tank.causes.push_back(std::move(*found));
        tank.emergency = tank.emergency || diagnosis->advice.verdict == Verdict::emergency;
        for (const auto handle : diagnosis->advice.cautions) {
            const Caution& caution = base.cautions[handle];
            const bool called_for = caution.when && evaluate(*caution.when, diagnosis->told.facts,
                                                             diagnosis->ranking.conclusions.truth) == Truth::yes;
            if (called_for && (caution.level == Level::stop || caution.emergency)) add_once(tank.dangers, handle);
        }
    }
    std::ranges::stable_sort(tank.causes, std::greater{}, &FoundCause::chance);
}

Urgency urgency_of(const TankToday& tank) {
    if (!tank.tank.record) return Urgency::unreadable;
    if (!tank.dangers.empty() || tank.emergency) return Urgency::danger;
    if (!tank.causes.empty()) return Urgency::likely_cause;
    if (tank.due.empty()) return Urgency::nothing;
    switch (tank.due.front().pressing) {
        case Pressing::overdue:
            return Urgency::overdue;
        case Pressing::today:
            return Urgency::today;
        case Pressing::this_week:
            break;
    }
    return Urgency::this_week;
}

TankToday look_at(const Ranker& ranker, TankFile file, Day today) {
    TankToday tank;
    tank.tank = std::move(file);
    tank.state.today = today;
    if (tank.tank.record) {
        tank.ahead = static_cast<std::size_t>(
            std::ranges::count_if(tank.tank.record->entries, [&](const RecordedEntry& entry) { return entry.on > today; }));
        tank.state = state_of(*tank.tank.record, ranker.rule_base(), today);
        diagnose_bays(ranker, tank);
        std::vector<const Diagnosis*> diagnoses;
        for (const auto& diagnosis : tank.diagnoses) diagnoses.push_back(diagnosis ? &*diagnosis : nullptr);
        tank.due = due_work(*tank.tank.record, tank.state, ranker.rule_base(), diagnoses);
    }
    tank.urgency = urgency_of(tank);
    return tank;
}

}  // namespace

std::vector<Handle<Caution>> dangers_of(const TankToday& tank) {
    std::vector<Handle<Caution>> list = tank.dangers;
    if (tank.emergency)
        for (const auto& diagnosis : tank.diagnoses)
            if (diagnosis && diagnosis->advice.verdict == Verdict::emergency)
                for (const auto caution : diagnosis->advice.cautions) add_once(list, caution);
    return list;
}

std::vector<Handle<Caution>> cautions_of(const TankToday& tank) {
    std::vector<Handle<Caution>> list = dangers_of(tank);
    for (const DueWork& due : tank.due)
        for (const auto caution : due.cautions) add_once(list, caution);
    return list;
}

Round make_round(const Ranker& ranker, Site site, std::vector<TankFile> files, Day today) {
    const RuleBase& base = ranker.rule_base();
    Round round;
    round.today = today;
    round.site = std::move(site);
    for (TankFile& file : files) round.tanks.push_back(look_at(ranker, std::move(file), today));
    std::ranges::stable_sort(round.tanks, [](const TankToday& a, const TankToday& b) {
        const auto key = [](const TankToday& tank) {
            return std::tuple(tank.urgency, tank.causes.empty() ? 0.0 : -tank.causes.front().chance, tank.tank.file);
        };
        return key(a) < key(b);
    });

    std::vector<const TankRecord*> records;
    std::vector<const TankState*> states;
    for (const TankToday& tank : round.tanks) {
        for (const auto caution : cautions_of(tank)) add_once(round.cautions, caution);
        if (!tank.tank.record) continue;
        records.push_back(&*tank.tank.record);
        states.push_back(&tank.state);
    }
    std::ranges::stable_sort(round.cautions, {}, [&](Handle<Caution> handle) { return base.cautions[handle].level; });
    round.capacity = capacity_of(records, states, base, round.site.waste_per_day, today);
    return round;
}

}  // namespace lidlift
