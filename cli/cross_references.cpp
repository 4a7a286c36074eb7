#include "cli/cross_references.hpp"

#include "engine/materials.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <utility>

namespace lidlift::cli {
namespace {

template <class T>
void add_once(std::vector<T>& list, const T& item) {
    // Entries come one after the other, so an entry that is there already is the last.
    if (list.empty() || !(list.back() == item)) list.push_back(item);
}

template <class T>
void add_sorted(std::vector<Handle<T>>& list, Handle<T> item) {
    const auto at = std::ranges::lower_bound(list, item);
    if (at == list.end() || *at != item) list.insert(at, item);
}

template <class T, class Use>
void each(const Catalogue<T>& catalogue, const Use& use) {
    for (std::uint32_t i = 0; i < catalogue.size(); ++i) use(Handle<T>{i}, catalogue[Handle<T>{i}]);
}

class Collector {
public:
    Collector(const RuleBase& base, CrossReferences& into) : base_(base), into_(into) {}

    void collect() {
        each(base_.rules, [&](Handle<Rule> handle, const Rule& rule) { mention(rule.when, &Mentioners::rules, handle); });
        each(base_.causes, [&](Handle<Cause> handle, const Cause& cause) { look_at(handle, cause); });
        each(base_.steps, [&](Handle<Step> handle, const Step& step) { look_at(handle, step); });
        each(base_.cautions, [&](Handle<Caution> handle, const Caution& caution) {
            if (caution.when) mention(*caution.when, &Mentioners::cautions, handle);
        });
        each(base_.clashes, [&](Handle<Clash> handle, const Clash& clash) {
            if (clash.when) mention(*clash.when, &Mentioners::clashes, handle);
            if (clash.find_out) add_once(into_.of_sign[clash.find_out->index].clashes, handle);
        });
        each(base_.signs, [&](Handle<Sign>, const Sign& sign) { rest("sign", sign); });
        each(base_.rules, [&](Handle<Rule>, const Rule& rule) { rest("rule", rule); });
        each(base_.causes, [&](Handle<Cause>, const Cause& cause) { rest_with_parts(cause); });
        each(base_.steps, [&](Handle<Step>, const Step& step) { rest("step", step); });
        each(base_.cautions, [&](Handle<Caution>, const Caution& caution) { rest("caution", caution); });
        each(base_.clashes, [&](Handle<Clash>, const Clash& clash) { rest("clash", clash); });
        each(base_.materials, [&](Handle<Material> handle, const Material& material) { look_at(handle, material); });
        for (const auto source : base_.weighing.sources)
            into_.resting_on[source.index].push_back({"section", "weighing", {}, base_.weighing.sources.size() == 1});
    }

private:
    template <class T>
    void mention(const Condition& condition, std::vector<Handle<T>> Mentioners::*list, Handle<T> by) {
        const Mentions mentions = mentioned(condition);
        for (const auto sign : mentions.signs) add_once(into_.of_sign[sign.index].*list, by);
        for (const auto conclusion : mentions.conclusions) add_once(into_.of_conclusion[conclusion.index].*list, by);
    }

    void look_at(Handle<Cause> handle, const Cause& cause) {
        for (const Circumstance& circumstance : cause.made_likelier_by) mention(circumstance.when, &Mentioners::causes, handle);
        for (const Link& link : cause.links)
            std::visit([&](const auto& when) { mention(Condition{when}, &Mentioners::causes, handle); }, link.when);
        if (cause.cannot_be_when) mention(*cause.cannot_be_when, &Mentioners::causes, handle);
        if (cause.must_be_when) mention(*cause.must_be_when, &Mentioners::causes, handle);
        for (const auto step : cause.steps) add_once(into_.asking_for[step.index], handle);
        for (const auto caution : cause.cautions) add_once(into_.with_caution[caution.index], handle);
        for (const Avoided& avoided : cause.avoid)
            if (const auto* clash = std::get_if<Handle<Clash>>(&avoided)) add_once(into_.avoiding[clash->index], handle);
        for (const auto other : cause.brings_about) add_once(into_.roots[other.index], handle);
        for (const auto other : cause.not_to_confuse_with) both_ways(into_.look_alikes, handle, other);
        for (const auto other : cause.not_together_with) both_ways(into_.apart, handle, other);
    }

    static void both_ways(std::vector<std::vector<Handle<Cause>>>& lists, Handle<Cause> one, Handle<Cause> other) {
        add_sorted(lists[one.index], other);
        add_sorted(lists[other.index], one);
    }

    void look_at(Handle<Step> handle, const Step& step) {
        if (step.never_when) mention(*step.never_when, &Mentioners::steps, handle);
        for (const auto caution : step.cautions) add_once(into_.steps_with_caution[caution.index], handle);
        for (const MeasuredOut& measured : step.measured_out) look_at(handle, measured.formula);
        each(base_.clashes, [&](Handle<Clash> clash_handle, const Clash& clash) {
            const auto matching = [&](const StepGroup& group) { return matches(group, step, handle); };
            if (std::ranges::any_of(clash.never, matching) || std::ranges::any_of(clash.between, matching))
                into_.keeping_off[handle.index].push_back(clash_handle);
        });
    }

    void look_at(Handle<Step> handle, const AmountFormula& formula) {
        for (const Stuff& stuff : formula.of)
            if (stuff.kind == Stuff::Kind::material) add_once(into_.measuring[stuff.material.index], handle);
        if (const DoseOut* dose = std::get_if<DoseOut>(&formula.how); dose && dose->rate.filling)
            add_once(into_.measuring[dose->rate.filling->index], handle);
    }

    void look_at(Handle<Material> handle, const Material& material) {
        for (const auto sign : material.shares) add_once(into_.of_sign[sign.index].materials, handle);
        for (const Says& says : material.tells) add_once(into_.of_sign[says.sign.index].materials, handle);
        for (const auto caution : material.cautions) add_once(into_.materials_with_caution[caution.index], handle);
        rest("material", material);
        for (const NamedFigure& named : figures_of(material))
            add_part("material", material.id, named.figure->sources, std::string(named.key));
    }

    template <class T>
    void rest(const char* kind, const T& entry) {
        for (const auto source : entry.sources) {
            auto& list = into_.resting_on[source.index];
            if (list.empty() || list.back().kind != kind || list.back().id != entry.id)
                list.push_back({kind, entry.id, {}, entry.sources.size() == 1});
        }
    }

    void rest_with_parts(const Cause& cause) {
        rest("cause", cause);
        for (const Circumstance& circumstance : cause.made_likelier_by)
            add_part("cause", cause.id, circumstance.sources, circumstance.when_text);
        for (const Link& link : cause.links) add_part("cause", cause.id, link.sources, link.when_text);
    }

    /// A part of an entry that names sources of its own.
    void add_part(const char* kind, const std::string& id, const Sources& sources, const std::string& part) {
        for (const auto source : sources) {
            auto& list = into_.resting_on[source.index];
            if (list.empty() || list.back().kind != kind || list.back().id != id) list.push_back({kind, id, {}, false});
            list.back().parts.push_back(part);
        }
    }

    const RuleBase& base_;
    CrossReferences& into_;
};

}  // namespace

CrossReferences::CrossReferences(const RuleBase& base)
    : of_sign(base.signs.size()),
      of_conclusion(base.conclusions.size()),
      asking_for(base.steps.size()),
      keeping_off(base.steps.size()),
      with_caution(base.cautions.size()),
      steps_with_caution(base.cautions.size()),
      measuring(base.materials.size()),
      materials_with_caution(base.cautions.size()),
      avoiding(base.clashes.size()),
      roots(base.causes.size()),
      look_alikes(base.causes.size()),
      apart(base.causes.size()),
      resting_on(base.sources.size()) {
    Collector(base, *this).collect();
}

std::string counted(const std::vector<Resting>& resting) {
    static constexpr std::array<std::pair<const char*, const char*>, 8> kinds = {{{"sign", "signs"},
                                                                                  {"rule", "rules"},
                                                                                  {"cause", "causes"},
                                                                                  {"step", "steps"},
                                                                                  {"caution", "cautions"},
                                                                                  {"clash", "clashes"},
                                                                                  {"material", "materials"},
                                                                                  {"section", "sections"}}};
    std::string text;
    for (const auto& [one, many] : kinds) {
        const auto count = std::ranges::count(resting, one, &Resting::kind);
        if (count == 0) continue;
        text += (text.empty() ? "" : ", ") + std::to_string(count) + " " + (count == 1 ? one : many);
    }
    return text;
}

}  // namespace lidlift::cli
