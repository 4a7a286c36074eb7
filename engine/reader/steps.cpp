// The sections "steps", "cautions" and "clashes".
#include "engine/reader/resolve.hpp"
#include "engine/reader/sections.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace lidlift::reader {
namespace {

std::vector<std::string> push_words() {
    std::vector<std::string> words;
    for (const std::string& what : pushed_words()) {
        words.push_back(what + " up");
        words.push_back(what + " down");
    }
    return words;
}

Push push_at(std::size_t position) { return {static_cast<Pushed>(position / 2), position % 2 == 0}; }

std::vector<StepGroup> read_step_groups(Entry& entry, std::string_view key, const RuleBase& rule_base) {
    std::vector<StepGroup> result;
    for (const YamlNode* item : entry.list(key))
        if (const auto group = read_step_group(*item, rule_base, entry.complaints())) result.push_back(*group);
    return result;
}

/// Words that begin a word of a step: small letters, so that capitals in the step make no difference.
std::string in_small_letters(std::string text) {
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return text;
}

CalledForBy read_called_for_by(const YamlNode& node, const std::string& what, Complaints& complaints) {
    Entry entry(node, "'called for by' of " + what, complaints);
    CalledForBy result;
    for (const YamlNode* item : entry.list("kinds"))
        if (const auto kind = read_word(*item, step_kind_words(), complaints))
            result.kinds.push_back(static_cast<StepKind>(*kind));
    for (const YamlNode* item : entry.list("pushes"))
        if (const auto push = read_word(*item, push_words(), complaints)) result.pushes.push_back(push_at(*push));
    for (std::string& word : entry.texts("words")) result.words.push_back(in_small_letters(std::move(word)));
    if (node.kind == YamlNode::Kind::map && node.entries.empty())
        entry.complain(node.place, "'called for by' should hold 'kinds', 'pushes' or 'words'");
    entry.finish();
    return result;
}

}  // namespace

std::optional<StepGroup> read_step_group(const YamlNode& node, const RuleBase& rule_base, Complaints& complaints) {
    if (!require_text(node, "a kind of step", complaints)) return std::nullopt;
    const auto kind = std::ranges::find(step_kind_words(), node.text);
    if (kind != step_kind_words().end()) return static_cast<StepKind>(kind - step_kind_words().begin());
    const auto words = push_words();
    const auto push = std::ranges::find(words, node.text);
    if (push != words.end()) return push_at(static_cast<std::size_t>(push - words.begin()));
    if (const auto step = rule_base.steps.find(node.text)) return StepGroup{*step};
    const auto names = [&] {
        std::vector<std::string> known = step_kind_words();
        known.insert(known.end(), words.begin(), words.end());
        const auto ids = rule_base.steps.ids();
        known.insert(known.end(), ids.begin(), ids.end());
        return known;
    };
    complaints.add(node.place, "'" + node.text + "' is neither a kind of step nor a push nor a step",
                   nearest_of(complaints, node.text, names));
    return std::nullopt;
}

void read_step(const NamedEntry& named, Step& step, const RuleBase& rule_base, Complaints& complaints) {
    Entry entry(named.value, "the step '" + named.id + "'", complaints);
    step.say = entry.text("do", Need::required);
    if (const auto when = entry.word("when", when_words(), Need::required)) step.when = static_cast<When>(*when);
    if (const auto kind = entry.word("kind", step_kind_words(), Need::required)) step.kind = static_cast<StepKind>(*kind);
    for (const YamlNode* item : entry.list("pushes"))
        if (const auto push = read_word(*item, push_words(), complaints)) step.pushes.push_back(push_at(*push));
    const auto strictness = entry.number("strictness");
    if (step.kind == StepKind::feed) {
        if (strictness && *strictness >= 1 && *strictness <= 5 && *strictness == static_cast<int>(*strictness))
            step.strictness = static_cast<int>(*strictness);
        else
            entry.complain(named.place, "a step of kind feed needs a 'strictness' from 1 (mild) to 5 (no feed at all)");
    } else if (strictness) {
        entry.complain(entry.node("strictness")->place, "only a step of kind feed has a 'strictness'");
    }
    static const std::vector<std::string> costs = {"harmless", "costly", "drastic"};
    static constexpr std::array<double, 3> thresholds = {0.2, 0.5, 0.8};
    if (const auto cost = entry.word("if wrong", costs, Need::required)) step.needed_chance = thresholds[*cost];
    step.cautions = read_names(entry, "cautions", rule_base.cautions, "caution");
    step.never_when = read_when(entry, "never when", step.never_when_text, step.never_when_place, rule_base);
    step.check_first = entry.text("check first");
    step.amount = entry.text("amount");
    step.measured_out = read_measured_out(entry, rule_base);
    step.because = entry.text("because");
    step.sources = read_sources(entry, rule_base);
    entry.finish();
}

void read_caution(const NamedEntry& named, Caution& caution, const RuleBase& rule_base, Complaints& complaints) {
    Entry entry(named.value, "the caution '" + named.id + "'", complaints);
    caution.name = entry.text("name", Need::required);
    if (const auto level = entry.word("level", level_words(), Need::required)) caution.level = static_cast<Level>(*level);
    caution.say = entry.text("say", Need::required);
    caution.when = read_when(entry, "when", caution.when_text, caution.when_place, rule_base);
    caution.emergency = entry.yes_no("emergency");
    if (caution.emergency && !entry.node("when")) entry.complain(named.place, "an emergency needs a 'when'");
    if (const YamlNode* by = entry.node("called for by"))
        caution.called_for_by = read_called_for_by(*by, entry.what(), complaints);
    caution.sources = read_sources(entry, rule_base);
    entry.finish();
}

void read_clash(const NamedEntry& named, Clash& clash, const RuleBase& rule_base, Complaints& complaints) {
    Entry entry(named.value, "the clash '" + named.id + "'", complaints);
    const bool two_sided = entry.node("between") != nullptr;
    clash.because = entry.text("because", Need::required);
    if (two_sided) {
        clash.between = read_step_groups(entry, "between", rule_base);
        if (entry.list("between").size() != 2) entry.complain(entry.node("between")->place, "'between' should name two things");
        const std::string sign = entry.text("find out", Need::required);
        clash.find_out = rule_base.signs.find(sign);
        if (!clash.find_out && !sign.empty())
            entry.complain(entry.node("find out")->place, "there is no sign '" + sign + "'",
                           nearest_of(complaints, sign, [&] { return rule_base.signs.ids(); }));
    } else {
        if (const YamlNode* never = entry.node("never", Need::required);
            never && !(never->kind == YamlNode::Kind::list && never->items.empty()))
            clash.never = read_step_groups(entry, "never", rule_base);
        clash.when = read_when(entry, "when", clash.when_text, clash.when_place, rule_base);
        if (!entry.node("when"))
            entry.complain(named.place, entry.what() + " lacks the key 'when'", "say 'when: always' if it always holds");
        clash.say = entry.text("say", Need::required);
        clash.check_first = entry.text("check first");
    }
    clash.sources = read_sources(entry, rule_base);
    entry.finish();
}

}  // namespace lidlift::reader
