// The chapters of dangers, steps and clashes.
#include "cli/handbook_scribe.hpp"

#include <algorithm>

namespace lidlift::cli {
namespace {

void write_caution(Scribe& scribe, Handle<Caution> handle) {
    const Caution& caution = scribe.base.cautions[handle];
    scribe.entry("caution", caution.id, caution.id + " " + caution.name, caution.name);
    scribe.add(Boxed{caution.level, plain(caution.name), plain(caution.say)});
    scribe.particulars({{"Shown whenever", caution.when ? scribe.condition(caution.when_text) : Line{}},
                        {"Emergency", plain(caution.emergency ? "while this holds, only steps for people are shown" : "")},
                        {"Goes with the causes", scribe.links(scribe.refs.with_caution[handle.index])},
                        {"Goes with the steps", scribe.links(scribe.refs.steps_with_caution[handle.index])},
                        {"Goes with the materials", scribe.links(scribe.refs.materials_with_caution[handle.index])}});
    scribe.sources(caution.sources);
}

void write_step(Scribe& scribe, Handle<Step> handle) {
    const Step& step = scribe.base.steps[handle];
    scribe.entry("step", step.id, capitalised(spoken(step.id)), spoken(step.id));
    scribe.aside(code(step.id) + plain(", " + std::string(to_word(step.when))));
    scribe.warn_of(step.cautions);
    scribe.particulars({{"Never when", step.never_when ? scribe.condition(step.never_when_text) : Line{}}});
    scribe.paragraph(step_in_words(step));
    std::vector<Line> measured;
    for (const MeasuredOut& each : step.measured_out) measured.push_back(plain(each.text));
    std::vector<Line> pushes;
    for (const Push& push : step.pushes) pushes.push_back(plain(to_text(push)));
    const auto& causes = scribe.refs.asking_for[handle.index];
    scribe.particulars({{"Measured out, where there is a record", joined(measured, "; ")},
                        {"Why", plain(step.because)},
                        {"Pushes", joined(pushes, ", ")},
                        {"Strictness", plain(step.strictness > 0 ? std::to_string(step.strictness) + " of 5" : "")},
                        {"Done from a chance of", plain(percent(step.needed_chance))},
                        {"For", causes.empty() ? plain("no cause yet") : scribe.links(causes)},
                        {"Clashes", scribe.links(scribe.refs.keeping_off[handle.index], ", ")}});
    scribe.sources(step.sources);
}

void write_clash(Scribe& scribe, Handle<Clash> handle) {
    const Clash& clash = scribe.base.clashes[handle];
    const std::string title = capitalised(spoken(clash.id));
    scribe.entry("clash", clash.id, title, clash.say.empty() ? spoken(clash.id) : shortened(clash.say, 70));
    if (!clash.say.empty()) scribe.paragraph(strong(clash.say));
    scribe.particulars({{"Keeps back", clash.between.empty() && clash.never.empty() ? plain("no step; it is a sentence to say")
                                                                                    : groups_in_words(scribe, clash.never)},
                        {"While", clash.when ? scribe.condition(clash.when_text) : Line{}},
                        {"Check first", plain(clash.check_first)},
                        {"One of the two at most", groups_in_words(scribe, clash.between)},
                        {"Settled by", clash.find_out ? scribe.link(*clash.find_out) : Line{}},
                        {"Why", plain(clash.because)},
                        {"Said under \"do not\" by", scribe.links(scribe.refs.avoiding[handle.index])}});
    scribe.sources(clash.sources);
}

}  // namespace

Line step_in_words(const Step& step) {
    Line line;
    if (!step.check_first.empty()) line = emphasis("First check: ") + plain(step.check_first + " ");
    line = std::move(line) + plain(step.say);
    if (!step.amount.empty()) line = std::move(line) + " " + emphasis("How much: ") + plain(step.amount);
    return line;
}

Line groups_in_words(const Scribe& scribe, const std::vector<StepGroup>& groups) {
    std::vector<Line> parts;
    for (const StepGroup& group : groups) {
        if (const auto* kind = std::get_if<StepKind>(&group))
            parts.push_back(plain("steps of kind " + spoken(std::string(to_word(*kind)))));
        if (const auto* step = std::get_if<Handle<Step>>(&group)) parts.push_back(scribe.link(*step));
        if (const auto* push = std::get_if<Push>(&group)) parts.push_back(plain("steps that push " + to_text(*push)));
    }
    return joined(parts, ", ");
}

void write_dangers(Scribe& scribe) {
    scribe.chapter("dangers", "Dangers first");
    scribe.paragraph(
        plain("Every caution of the rule base, the most dangerous first. A step that needs one is never shown before it. Local "
              "rules, and the people "
              "licensed for gas, wiring, pests and health, come before anything said in this handbook."));
    for (const Level level : {Level::stop, Level::warn, Level::note}) {
        bool any = false;
        for (std::uint32_t i = 0; i < scribe.base.cautions.size(); ++i) {
            const Handle<Caution> handle{i};
            if (scribe.base.cautions[handle].level != level) continue;
            if (!any)
                scribe.group(level == Level::stop   ? "Stop: this can kill or maim"
                             : level == Level::warn ? "Care: this can make ill or hurt"
                                                    : "Note: good to know");
            any = true;
            write_caution(scribe, handle);
        }
    }
}

void write_steps(Scribe& scribe) {
    scribe.chapter("steps", "Steps by kind");
    scribe.paragraph(plain("In the order in which kinds of step are taken. Where a step names cautions they stand before it; "
                           "those of level STOP in full, "
                           "the others by name: their full text is in ") +
                     Line{{"Dangers first", Span::Look::plain, "dangers"}} + ".");
    for (std::size_t kind = 0; kind < step_kind_words().size(); ++kind) {
        std::vector<Handle<Step>> handles;
        for (std::uint32_t i = 0; i < scribe.base.steps.size(); ++i)
            if (scribe.base.steps[Handle<Step>{i}].kind == static_cast<StepKind>(kind)) handles.push_back({i});
        if (handles.empty()) continue;
        scribe.group(spoken(step_kind_words()[kind]));
        for (const When when : {When::now, When::this_week, When::from_now_on})
            for (const auto handle : handles)
                if (scribe.base.steps[handle].when == when) write_step(scribe, handle);
    }
}

void write_clashes(Scribe& scribe) {
    scribe.chapter("clashes", "Clashes");
    scribe.paragraph(
        plain("Steps that are not for now, and pairs of which one at most can be right. Two steps that push the same thing in "
              "opposite "
              "directions are a clash even if no entry names them."));
    for (const bool two_sided : {false, true}) {
        bool any = false;
        for (std::uint32_t i = 0; i < scribe.base.clashes.size(); ++i) {
            const Handle<Clash> handle{i};
            if (scribe.base.clashes[handle].between.empty() == two_sided) continue;
            if (!any) scribe.group(two_sided ? "One of the two at most" : "Not while");
            any = true;
            write_clash(scribe, handle);
        }
    }
}

}  // namespace lidlift::cli
