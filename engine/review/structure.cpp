#include "engine/review/structure.hpp"

#include "engine/contains.hpp"
#include "engine/materials.hpp"
#include "engine/review/kinds.hpp"

#include <algorithm>
#include <cctype>
#include <string_view>

namespace lidlift {
namespace {

/// Words in small letters. Only ASCII letters and digits part words from what is between them; bytes of other letters belong to
/// their word.
std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words;
    bool inside = false;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        const bool letter = byte >= 0x80 || std::isalnum(byte) != 0;
        if (letter && !inside) words.emplace_back();
        if (letter) words.back() += byte < 0x80 ? static_cast<char>(std::tolower(byte)) : c;
        inside = letter;
    }
    return words;
}

bool says(const std::vector<std::string>& text, const std::vector<std::string>& beginnings) {
    // Not std::ranges::search: clang 14 cannot read the subrange that libstdc++ 12 returns.
    const auto found =
        std::search(text.begin(), text.end(), beginnings.begin(), beginnings.end(),
                    [](const std::string& word, const std::string& beginning) { return word.starts_with(beginning); });
    return !beginnings.empty() && found != text.end();
}

/// The words of a step's text and amount.
struct StepWords {
    std::vector<std::string> text;
    std::vector<std::string> amount;
};

std::string calls_for(const CalledForBy& by, const Step& step, const StepWords& words) {
    if (contains(by.kinds, step.kind)) return "is of kind " + std::string(to_word(step.kind));
    for (const Push& push : step.pushes)
        if (contains(by.pushes, push)) return "pushes " + to_text(push);
    for (const std::string& word : by.words) {
        const auto beginnings = words_of(word);
        if (says(words.text, beginnings) || says(words.amount, beginnings)) return "says '" + word + "'";
    }
    return {};
}

/// From whom a statement comes, as far as a reader could look it up.
struct RestsOn {
    bool memory = true;      ///< nothing but memory
    bool published = false;  ///< something that was published and seen
};

class StructureReview {
public:
    StructureReview(const RuleBase& base, std::vector<ReviewFinding>& findings)
        : base_(base), findings_(findings), asked_for_(base.steps.size(), false) {
        for (const Cause& cause : base.causes)
            for (const Handle<Step> step : cause.steps) asked_for_[step.index] = true;
        for (const Step& step : base.steps) words_.push_back({words_of(step.say), words_of(step.amount)});
    }

    void review() {
        for (const Cause& cause : base_.causes) review_cause(cause);
        for (std::uint32_t i = 0; i < base_.steps.size(); ++i) review_step({i});
        for (std::uint32_t i = 0; i < base_.cautions.size(); ++i) review_caution({i});
        for (std::uint32_t i = 0; i < base_.clashes.size(); ++i) review_clash({i});
        unused_sources();
        from_memory();
    }

private:
    ReviewFinding& add(std::string_view kind, const Place& place, std::vector<std::string> about, std::string text,
                       std::string mend) {
        ReviewFinding finding = finding_of(kind, place);
        finding.about = std::move(about);
        finding.text = std::move(text);
        finding.mend = std::move(mend);
        return findings_.emplace_back(std::move(finding));
    }

    void review_cause(const Cause& cause) {
        const auto waits = [&](Handle<Step> step) {
            // What is to be done now is no mere habit, although no other kind suits it ("take in no more waste").
            const StepKind kind = base_.steps[step].kind;
            return kind == StepKind::watch || (kind == StepKind::care && base_.steps[step].when != When::now);
        };
        if (cause.steps.empty())
            add("cause_without_step", cause.place, {cause.id}, "the cause '" + cause.id + "' asks for no step",
                cause.benign ? "say at least what to watch" : "name what helps under 'steps'");
        else if (!cause.benign && std::ranges::all_of(cause.steps, waits))
            add("cause_only_watched", cause.place, {cause.id},
                "all steps of '" + cause.id + "' are for looking and for habits, although it is not benign",
                "name a step that mends it, or say 'benign: yes'");
        std::string missing;
        const auto lacks = [&](bool lacking, const std::string& key) {
            if (lacking) missing += (missing.empty() ? "'" : " and '") + key + "'";
        };
        lacks(cause.look_again_days.empty(), "look again");
        lacks(cause.expect.empty(), "expect");
        lacks(cause.told_apart_by.empty() && !cause.not_to_confuse_with.empty(), "told apart by");
        if (!missing.empty())
            add("cause_lacks_words", cause.place, {cause.id}, "the cause '" + cause.id + "' lacks " + missing,
                "say it in one sentence each");
    }

    void review_step(Handle<Step> handle) {
        const Step& step = base_.steps[handle];
        if (!asked_for_[handle.index])
            add("step_without_cause", step.place, {step.id}, "no cause asks for the step '" + step.id + "'",
                "name it under the 'steps' of a cause, or take it out");
        for (std::uint32_t i = 0; i < base_.cautions.size(); ++i) {
            const Caution& caution = base_.cautions[Handle<Caution>{i}];
            if (contains(step.cautions, {i})) continue;
            const std::string why = calls_for(caution.called_for_by, step, words_[handle.index]);
            if (!why.empty())
                add("hazard_without_caution", step.place, {step.id, caution.id},
                    "the step '" + step.id + "' " + why + ", and does not name the caution " + caution.id + " (" +
                        caution.name + ")",
                    "add " + caution.id + " to the step's 'cautions'");
        }
    }

    void review_caution(Handle<Caution> handle) {
        const Caution& caution = base_.cautions[handle];
        const bool named =
            std::ranges::any_of(base_.steps, [&](const Step& step) { return contains(step.cautions, handle); }) ||
            std::ranges::any_of(base_.causes, [&](const Cause& cause) { return contains(cause.cautions, handle); }) ||
            std::ranges::any_of(base_.materials, [&](const Material& one) { return contains(one.cautions, handle); });
        if (!named && !caution.when)
            add("unused_caution", caution.place, {caution.id},
                "no step, cause or material names the caution '" + caution.id + "', and it has no 'when'",
                "name it where it is needed, or give it a 'when'");
    }

    /// A step that falls under `group` and that some cause asks for.
    [[nodiscard]] bool could_be_planned(const StepGroup& group, std::optional<Handle<Step>> but = {}) const {
        for (std::uint32_t i = 0; i < base_.steps.size(); ++i)
            if (asked_for_[i] && Handle<Step>{i} != but && matches(group, base_.steps[Handle<Step>{i}], {i})) return true;
        return false;
    }

    void review_clash(Handle<Clash> handle) {
        const Clash& clash = base_.clashes[handle];
        const bool avoided =
            std::ranges::any_of(base_.causes, [&](const Cause& cause) { return contains(cause.avoid, Avoided(handle)); });
        std::string why;
        if (!clash.between.empty()) {
            for (const StepGroup& group : clash.between)
                if (!could_be_planned(group)) why = "on one of its sides there is no step that a cause asks for";
        } else if (!clash.never.empty()) {
            if (!avoided && std::ranges::none_of(clash.never, [&](const StepGroup& group) { return could_be_planned(group); }))
                why = "no step that a cause asks for falls under its 'never'";
        } else {
            const Mentions mentions = clash.when ? mentioned(*clash.when) : Mentions{};
            const bool always = mentions.signs.empty() && mentions.conclusions.empty();
            if (always && !avoided) why = "it keeps back no step, and no cause names it under 'avoid'";
        }
        if (!why.empty())
            add("unused_clash", clash.place, {clash.id}, "nothing can trigger the clash '" + clash.id + "': " + why,
                "mend its sides, name it under the 'avoid' of a cause, or take it out");
    }

    /// Calls `take(entry, sources, what)` for every entry that has sources. Materials are no statements: each of their figures
    /// says by its standing whether it was read.
    template <class Take>
    void for_each_statement(const Take& take) const {
        for (const Sign& sign : base_.signs) take(sign.id, sign.place, sign.sources, "sign");
        for (const Rule& rule : base_.rules) take(rule.id, rule.place, rule.sources, "rule");
        for (const Cause& cause : base_.causes) {
            take(cause.id, cause.place, cause.sources, "cause");
            for (const Link& link : cause.links)
                if (!link.sources.empty()) take(cause.id, link.place, link.sources, "link");
            for (const Circumstance& circumstance : cause.made_likelier_by)
                if (!circumstance.sources.empty()) take(cause.id, circumstance.place, circumstance.sources, "circumstance");
        }
        for (const Step& step : base_.steps) take(step.id, step.place, step.sources, "step");
        for (const Caution& caution : base_.cautions) take(caution.id, caution.place, caution.sources, "caution");
        for (const Clash& clash : base_.clashes) take(clash.id, clash.place, clash.sources, "clash");
        for (const Reviewed& reviewed : base_.reviewed) take(reviewed.kind, reviewed.place, reviewed.sources, "review");
    }

    void unused_sources() {
        std::vector<bool> used(base_.sources.size(), false);
        const auto use = [&](const Sources& sources) {
            for (const Handle<Source> source : sources) used[source.index] = true;
        };
        for_each_statement([&](const std::string&, const Place&, const Sources& sources, std::string_view) { use(sources); });
        for (const Material& material : base_.materials) {
            use(material.sources);
            for (const NamedFigure& named : figures_of(material)) use(named.figure->sources);
        }
        for (std::uint32_t i = 0; i < base_.sources.size(); ++i) {
            const Source& source = base_.sources[Handle<Source>{i}];
            // The two that are always there stand in no file.
            if (used[i] || source.place.line == 0) continue;
            add("unused_source", source.place, {source.id}, "nothing rests on the source '" + source.id + "'",
                "name it where it is relied upon, or take it out");
        }
    }

    [[nodiscard]] RestsOn standing(const Sources& sources) const {
        RestsOn result;
        for (const Handle<Source> handle : sources) {
            const Source& source = base_.sources[handle];
            const bool memory = source.id == "from_memory" || source.standing == "from memory";
            result.memory = result.memory && memory;
            result.published = result.published || (!memory && source.id != "common_practice");
        }
        return result;
    }

    /// What could hurt someone who follows it.
    [[nodiscard]] bool is_hazard(const std::string& id, std::string_view what) const {
        if (what == "caution") return base_.cautions[*base_.cautions.find(id)].level == Level::stop;
        if (what != "step") return false;
        const Handle<Step> handle = *base_.steps.find(id);
        const Step& step = base_.steps[handle];
        if (step.kind == StepKind::lime) return true;
        return std::ranges::any_of(base_.cautions, [&](const Caution& caution) {
            return caution.level == Level::stop && !calls_for(caution.called_for_by, step, words_[handle.index]).empty();
        });
    }

    void from_memory() {
        for_each_statement([&](const std::string& id, const Place& place, const Sources& sources, std::string_view what) {
            if (sources.empty()) return;
            const RestsOn found = standing(sources);
            const bool hazard = is_hazard(id, what);
            if (!found.memory && !(hazard && !found.published)) return;
            const bool part = what == "link" || what == "circumstance";
            const std::string who = part ? "a line of the cause '" + id + "'" : "the " + std::string(what) + " '" + id + "'";
            add("only_from_memory", place, {id},
                who + (found.memory ? " rests on memory alone" : " could hurt someone and rests on common practice alone"),
                "find who published it and name that, or say under 'reviewed' why it stands all the same");
        });
    }

    const RuleBase& base_;
    std::vector<ReviewFinding>& findings_;
    std::vector<bool> asked_for_;   ///< by step: some cause asks for it
    std::vector<StepWords> words_;  ///< by step
};

}  // namespace

std::string calls_for(const CalledForBy& by, const Step& step) {
    return calls_for(by, step, {words_of(step.say), words_of(step.amount)});
}

void review_structure(const RuleBase& rule_base, std::vector<ReviewFinding>& findings) {
    StructureReview(rule_base, findings).review();
}

}  // namespace lidlift
