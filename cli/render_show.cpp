#include "cli/render_show.hpp"

#include "cli/cross_references.hpp"
#include "cli/json_parts.hpp"
#include "engine/materials.hpp"
#include "engine/review/condition_sites.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace lidlift::cli {
namespace {

using Json = nlohmann::ordered_json;

std::string percent(double share) { return fmt::format("{:.3g} %", 100 * share); }

void set(Json& entry, const std::string& key, const std::string& text) {
    if (!text.empty()) entry[key] = text;
}

void set(Json& entry, const std::string& key, Json list) {
    if (!list.empty()) entry[key] = std::move(list);
}

/// Describes one entry of each kind; the text and the JSON output are both made from it, so they cannot differ.
class Describer {
public:
    explicit Describer(const RuleBase& base) : base_(base), refs_(base) {}

    Json sign(Handle<Sign> handle) const {
        const Sign& sign = base_.signs[handle];
        Json entry = {{"id", sign.id}, {"name", sign.name}, {"ask", sign.ask}};
        set(entry, "check", sign.check);
        entry["topic"] = sign.topic;
        entry["effort"] = to_word(sign.effort);
        entry["sort"] = to_word(sign.sort);
        if (sign.unit) {
            entry["measured in"] = sign.unit->name;
            entry["plausible"] = number_to_text(sign.plausible.low) + " to " + number_to_text(sign.plausible.high);
        }
        Json answers = Json::array();
        for (const Answer& answer : sign.answers) answers.push_back(describe(answer));
        set(entry, "answers", answers);
        set(entry, "same observation", sign.same_observation);
        set(entry, "used by the causes", id_list<Json>(base_.causes, refs_.of_sign[handle.index].causes));
        set(entry, "used by the rules", id_list<Json>(base_.rules, refs_.of_sign[handle.index].rules));
        set(entry, "answered by giving", id_list<Json>(base_.materials, refs_.of_sign[handle.index].materials));
        return finish(std::move(entry), sign.sources, sign.place);
    }

    Json conclusion(Handle<Conclusion> handle) const {
        const Conclusion& conclusion = base_.conclusions[handle];
        Json entry = {{"id", conclusion.id}, {"means", conclusion.means}};
        if (conclusion.seen_anyway) entry["seen anyway"] = percent(*conclusion.seen_anyway);
        set(entry, "same observation", conclusion.same_observation);
        Json excludes = Json::array();
        for (const auto other : conclusion.excludes) excludes.push_back(base_.conclusions[other].id);
        set(entry, "excludes", excludes);
        Json rules = Json::array();
        for (const Rule& rule : base_.rules)
            if (rule.then == handle) rules.push_back(rule.when_text + " - " + rule.because);
        set(entry, "when", rules);
        entry["place"] = to_text(conclusion.place);
        return entry;
    }

    Json rule(Handle<Rule> handle) const {
        const Rule& rule = base_.rules[handle];
        Json entry = {
            {"id", rule.id}, {"when", rule.when_text}, {"then", base_.conclusions[rule.then].id}, {"because", rule.because}};
        return finish(std::move(entry), rule.sources, rule.place);
    }

    Json cause(Handle<Cause> handle) const {
        const Cause& cause = base_.causes[handle];
        Json entry = {{"id", cause.id}};
        set(entry, "code", cause.code);
        entry["name"] = cause.name;
        entry["how common"] = cause.how_common_words + " (" + percent(cause.how_common) + ")";
        if (base_.stage && cause.stages != ~AnswerSet{0}) {
            const Sign& stage = base_.signs[*base_.stage];
            Json stages = Json::array();
            for (std::size_t i = 0; i < stage.answers.size(); ++i)
                if ((cause.stages & answer_set(i)) != 0) stages.push_back(stage.answers[i].id);
            entry["stages"] = stages;
        }
        entry["because"] = cause.because;
        Json circumstances = Json::array();
        for (const Circumstance& c : cause.made_likelier_by) circumstances.push_back(c.when_text + ": " + c.words);
        set(entry, "made likelier by", circumstances);
        Json links = Json::array();
        for (const Link& link : cause.links) links.push_back(link.when_text + ": " + link.words);
        set(entry, "signs", links);
        set(entry, "cannot be when", cause.cannot_be_when_text);
        set(entry, "must be when", cause.must_be_when_text);
        set(entry, "not together with", id_list<Json>(base_.causes, cause.not_together_with));
        if (cause.alone) entry["alone"] = "yes";
        if (cause.benign) entry["benign"] = "yes";
        set(entry, "brings about", id_list<Json>(base_.causes, cause.brings_about));
        set(entry, "follows from", id_list<Json>(base_.causes, refs_.roots[handle.index]));
        set(entry, "cautions", id_list<Json>(base_.cautions, cause.cautions));
        set(entry, "steps", id_list<Json>(base_.steps, cause.steps));
        Json avoid = Json::array();
        for (const Avoided& avoided : cause.avoid) {
            const auto* clash = std::get_if<Handle<Clash>>(&avoided);
            avoid.push_back(clash ? base_.clashes[*clash].id + ": " + base_.clashes[*clash].say
                                  : std::get<std::string>(avoided));
        }
        set(entry, "avoid", avoid);
        Json days = Json::array();
        for (const double day : cause.look_again_days) days.push_back(fmt::format("{:g} days", day));
        set(entry, "look again", days);
        set(entry, "expect", cause.expect);
        set(entry, "told apart by", cause.told_apart_by);
        set(entry, "not to confuse with", id_list<Json>(base_.causes, cause.not_to_confuse_with));
        set(entry, "guides differ", cause.guides_differ);
        return finish(std::move(entry), cause.sources, cause.place);
    }

    /// Cautions stand before the step they belong to, here as everywhere.
    Json step(Handle<Step> handle) const {
        const Step& step = base_.steps[handle];
        Json entry = {{"id", step.id}};
        Json cautions = Json::array();
        for (const auto caution : step.cautions)
            cautions.push_back(base_.cautions[caution].id + ": " + base_.cautions[caution].say);
        set(entry, "cautions", cautions);
        set(entry, "check first", step.check_first);
        set(entry, "never when", step.never_when_text);
        entry["do"] = step.say;
        set(entry, "amount", step.amount);
        Json measured = Json::array();
        for (const MeasuredOut& each : step.measured_out) measured.push_back(each.text);
        set(entry, "measured out", measured);
        entry["when"] = to_word(step.when);
        entry["kind"] = to_word(step.kind);
        Json pushes = Json::array();
        for (const Push& push : step.pushes) pushes.push_back(to_text(push));
        set(entry, "pushes", pushes);
        if (step.strictness > 0) entry["strictness"] = std::to_string(step.strictness);
        entry["done from a chance of"] = percent(step.needed_chance);
        set(entry, "because", step.because);
        set(entry, "helps against", id_list<Json>(base_.causes, refs_.asking_for[handle.index]));
        return finish(std::move(entry), step.sources, step.place);
    }

    Json caution(Handle<Caution> handle) const {
        const Caution& caution = base_.cautions[handle];
        Json entry = {{"id", caution.id}, {"name", caution.name}, {"level", to_word(caution.level)}, {"say", caution.say}};
        set(entry, "when", caution.when_text);
        if (caution.emergency) entry["emergency"] = "yes";
        set(entry, "goes with the causes", id_list<Json>(base_.causes, refs_.with_caution[handle.index]));
        set(entry, "goes with the steps", id_list<Json>(base_.steps, refs_.steps_with_caution[handle.index]));
        set(entry, "goes with the materials", id_list<Json>(base_.materials, refs_.materials_with_caution[handle.index]));
        Json called = Json::array();
        for (const StepKind kind : caution.called_for_by.kinds) called.push_back("steps of kind " + std::string(to_word(kind)));
        for (const Push& push : caution.called_for_by.pushes) called.push_back("steps that push " + to_text(push));
        for (const std::string& word : caution.called_for_by.words) called.push_back("steps that say '" + word + "...'");
        set(entry, "called for by", called);
        return finish(std::move(entry), caution.sources, caution.place);
    }

    Json clash(Handle<Clash> handle) const {
        const Clash& clash = base_.clashes[handle];
        Json entry = {{"id", clash.id}};
        set(entry, "say", clash.say);
        set(entry, "never", groups(clash.never));
        set(entry, "when", clash.when_text);
        set(entry, "check first", clash.check_first);
        set(entry, "between", groups(clash.between));
        if (clash.find_out) entry["find out"] = base_.signs[*clash.find_out].id;
        entry["because"] = clash.because;
        return finish(std::move(entry), clash.sources, clash.place);
    }

    /// Cautions stand before the figures, since the figures say how much to handle.
    Json material(Handle<Material> handle) const {
        const Material& material = base_.materials[handle];
        Json entry = {{"id", material.id}, {"name", material.name}, {"role", to_word(material.role)}};
        Json cautions = Json::array();
        for (const auto caution : material.cautions)
            cautions.push_back(base_.cautions[caution].id + ": " + base_.cautions[caution].say);
        set(entry, "cautions", cautions);
        set(entry, "keep from worms", material.keep_from_worms);
        set(entry, "note", material.note);
        if (!material.heard_as.empty()) entry["heard as"] = material.heard_as;
        for (const NamedFigure& named : figures_of(material)) entry[std::string(named.key)] = describe(named, material);
        if (const auto carbon = carbon_share(material)) entry["carbon"] = fmt::format("about {:.2g} % of dry mass", *carbon);
        set(entry, "counts towards", id_list<Json>(base_.signs, material.shares));
        Json tells = Json::array();
        for (const Says& says : material.tells) tells.push_back(logic::condition_text(Condition{says}, base_));
        set(entry, "tells", tells);
        set(entry, "measured out by", id_list<Json>(base_.steps, refs_.measuring[handle.index]));
        return finish(std::move(entry), material.sources, material.place);
    }

    Json source(Handle<Source> handle) const {
        const Source& source = base_.sources[handle];
        Json entry = {{"id", source.id}, {"title", source.title}};
        set(entry, "by", source.by);
        set(entry, "year", source.year);
        set(entry, "where", source.where);
        entry["kind"] = source.kind;
        entry["standing"] = source.standing;
        const auto& resting = refs_.resting_on[handle.index];
        Json rests = Json::array();
        Json alone = Json::array();
        for (const Resting& item : resting) {
            std::string text = item.kind + " " + item.id;
            if (item.alone) alone.push_back(text);
            const bool figures = item.kind == "material";
            for (std::size_t i = 0; i < item.parts.size(); ++i)
                text += (!figures ? ", where it says: " : i == 0 ? ", for its " : ", ") + item.parts[i];
            rests.push_back(std::move(text));
        }
        entry["how much rests on it"] = resting.empty() ? "nothing yet" : counted(resting);
        set(entry, "what rests on it", rests);
        set(entry, "of that, on it alone", alone);
        return entry;
    }

    [[nodiscard]] std::string how_much_rests_on(Handle<Source> handle) const { return counted(refs_.resting_on[handle.index]); }

private:
    Json describe(const NamedFigure& named, const Material& material) const {
        const Figure& figure = *named.figure;
        Json entry = {{"figure", figure_text(named)}, {"typical", figure.value.typical},
                      {"from", figure.value.low},     {"to", figure.value.high},
                      {"unit", named.unit->name},     {"standing", to_word(figure.standing)}};
        if (figure.range_standing != figure.standing) entry["range standing"] = to_word(figure.range_standing);
        if (figure.disputed) entry["disputed"] = "yes";
        set(entry, "note", figure.note);
        entry["sources"] = id_list<Json>(base_.sources, sources_of(figure, material));
        return entry;
    }

    static Json describe(const Answer& answer) {
        Json entry = {{"id", answer.id}};
        set(entry, "means", answer.means);
        if (answer.below) entry["below"] = number_to_text(*answer.below);
        if (answer.seen_anyway) entry["seen anyway"] = percent(*answer.seen_anyway);
        if (answer.none_of_these) entry["none of these"] = "yes";
        if (!answer.heard_as.empty()) entry["heard as"] = answer.heard_as;
        if (!answer.perhaps_heard_as.empty()) entry["perhaps heard as"] = answer.perhaps_heard_as;
        return entry;
    }

    Json groups(const std::vector<StepGroup>& list) const {
        Json result = Json::array();
        for (const StepGroup& group : list) {
            if (const auto* kind = std::get_if<StepKind>(&group))
                result.push_back("steps of kind " + std::string(to_word(*kind)));
            if (const auto* step = std::get_if<Handle<Step>>(&group)) result.push_back(base_.steps[*step].id);
            if (const auto* push = std::get_if<Push>(&group)) result.push_back(to_text(*push));
        }
        return result;
    }

    Json finish(Json entry, const Sources& sources, const Place& place) const {
        entry["sources"] = id_list<Json>(base_.sources, sources);
        entry["place"] = to_text(place);
        return entry;
    }

    const RuleBase& base_;
    const CrossReferences refs_;
};

/// The words a trainer writes and what they stand for.
Json words() {
    Json list = Json::array();
    for (const std::string& word : commonness_words())
        list.push_back(
            {{"id", "how common: " + word}, {"name", percent(*commonness(word)) + " of the beds that people ask about"}});
    for (const std::string& word : frequency_words())
        list.push_back({{"id", "seen: " + word}, {"name", "in " + percent(*frequency(word)) + " of them"}});
    for (const std::string& word : odds_words())
        list.push_back({{"id", "points: " + word},
                        {"name", fmt::format("odds times {:.3g}, {:+.1f} points", *odds_factor(word),
                                             10 * std::log10(*odds_factor(word)))}});
    return list;
}

/// By, title, how much of it was read, and how much rests on it.
Json listed_sources(const RuleBase& base, const Describer& describe) {
    Json list = Json::array();
    for (std::uint32_t i = 0; i < base.sources.size(); ++i) {
        const Source& source = base.sources[Handle<Source>{i}];
        const std::string resting = describe.how_much_rests_on({i});
        list.push_back({{"id", source.id},
                        {"name", (source.by.empty() ? "" : source.by + ", ") + source.title + " (" + source.standing + ")"},
                        {"more", resting.empty() ? "Nothing rests on it yet." : "On it rest: " + resting + "."}});
    }
    return list;
}

std::string capital(std::string text) {
    if (text.front() >= 'a' && text.front() <= 'z') text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text;
}

/// Name and role, and the figures without their standing.
Json listed_materials(const RuleBase& base) {
    Json list = Json::array();
    for (const Material& material : base.materials) {
        std::string figures;
        for (const NamedFigure& named : figures_of(material))
            figures += (figures.empty() ? "" : "; ") + std::string(named.key) + " " + figure_text(named) +
                       (named.figure->disputed ? " disputed" : "");
        list.push_back({{"id", material.id},
                        {"name", material.name + " (" + std::string(to_word(material.role)) + ")"},
                        {"more", figures.empty() ? "No figures." : capital(figures) + "."}});
    }
    return list;
}

template <class T>
Json listed(const Catalogue<T>& catalogue, const auto& summary) {
    Json list = Json::array();
    for (std::uint32_t i = 0; i < catalogue.size(); ++i)
        list.push_back({{"id", catalogue[Handle<T>{i}].id}, {"name", summary(catalogue[Handle<T>{i}])}});
    return list;
}

/// Every entry of one kind, as id and a short description.
Json list_of(const RuleBase& base, const std::string& kind) {
    if (kind == "signs") return listed(base.signs, [](const Sign& s) { return s.ask; });
    if (kind == "conclusions") return listed(base.conclusions, [](const Conclusion& c) { return c.means; });
    if (kind == "rules") return listed(base.rules, [](const Rule& r) { return r.when_text; });
    if (kind == "causes") return listed(base.causes, [](const Cause& c) { return c.name; });
    if (kind == "steps") return listed(base.steps, [](const Step& s) { return s.say; });
    if (kind == "cautions")
        return listed(base.cautions, [](const Caution& c) { return std::string(to_word(c.level)) + ": " + c.name; });
    if (kind == "clashes") return listed(base.clashes, [](const Clash& c) { return c.say.empty() ? c.because : c.say; });
    if (kind == "materials") return listed_materials(base);
    if (kind == "sources") return listed_sources(base, Describer(base));
    return words();
}

Json entry_of(const RuleBase& base, const Describer& describe, const std::string& kind, const std::string& id) {
    if (kind == "signs") return describe.sign(*base.signs.find(id));
    if (kind == "conclusions") return describe.conclusion(*base.conclusions.find(id));
    if (kind == "rules") return describe.rule(*base.rules.find(id));
    if (kind == "causes") return describe.cause(*base.causes.find(id));
    if (kind == "steps") return describe.step(*base.steps.find(id));
    if (kind == "cautions") return describe.caution(*base.cautions.find(id));
    if (kind == "clashes") return describe.clash(*base.clashes.find(id));
    if (kind == "materials") return describe.material(*base.materials.find(id));
    if (kind == "sources") return describe.source(*base.sources.find(id));
    for (Json& word : words())
        if (word["id"] == id) return word;
    return {};
}

/// A map of texts, lists and maps as lines: "key: text", lists with dashes.
void print_entry(Page& page, const Json& entry, const std::string& indent) {
    for (const auto& [key, value] : entry.items()) {
        if (value.is_string()) {
            page.paragraph(indent + key + ": ", value.get<std::string>());
            continue;
        }
        if (value.is_object()) {  // a figure of a material
            page.paragraph(
                indent + key + ": ",
                value["figure"].get<std::string>() + ", " + value["standing"].get<std::string>() +
                    (value.contains("range standing") ? ", the range " + value["range standing"].get<std::string>() : "") +
                    (value.contains("disputed") ? "; disputed" : ""));
            if (value.contains("note")) page.paragraph(indent + "    ", value["note"].get<std::string>());
            std::string sources;
            for (const Json& source : value["sources"]) sources += (sources.empty() ? "" : ", ") + source.get<std::string>();
            page.paragraph(indent + "    ", "Sources: " + sources);
            continue;
        }
        page.paragraph(indent, key + ":");
        for (const Json& item : value) {
            if (item.is_string()) {
                page.paragraph(indent + "  - ", item.get<std::string>());
                continue;
            }
            std::string line = item.value("id", "");
            for (const auto& [name, part] : item.items()) {
                if (name == "id" || !part.is_string()) continue;
                line += (name == "means" ? ": " : "; " + name + " ") + part.get<std::string>();
            }
            page.paragraph(indent + "  - ", line);
        }
    }
}

}  // namespace

const std::vector<std::string>& show_kinds() {
    static const std::vector<std::string> kinds = {"signs",    "conclusions", "rules",     "causes",  "steps",
                                                   "cautions", "clashes",     "materials", "sources", "words"};
    return kinds;
}

std::vector<std::string> ids_of(const RuleBase& rule_base, const std::string& kind) {
    std::vector<std::string> ids;
    for (const Json& item : list_of(rule_base, kind)) ids.push_back(item["id"]);
    return ids;
}

std::string show_overview(const RuleBase& rule_base, bool json, const Screen& screen) {
    Json counts;
    for (const std::string& kind : show_kinds()) counts[kind] = list_of(rule_base, kind).size();
    if (json)
        return dumped<Json>({{"rule_base", {{"name", rule_base.name}, {"version", rule_base.version}}}, {"holds", counts}});
    Page page(screen);
    page.paragraph("", rule_base.name + ", version " + rule_base.version + ". It holds:");
    for (const auto& [kind, count] : counts.items())
        page.paragraph("  ", fmt::format("{:>4} {}", count.get<std::size_t>(), kind));
    page.paragraph("", "Say which: lidlift show signs; lidlift show signs squeeze.");
    return page.take();
}

std::string show_list(const RuleBase& rule_base, const std::string& kind, bool json, const Screen& screen) {
    const Json list = list_of(rule_base, kind);
    if (json) {
        if (kind == "words") return dumped(list);
        const Describer describe(rule_base);
        Json entries = Json::array();
        for (const Json& item : list) entries.push_back(entry_of(rule_base, describe, kind, item["id"]));
        return dumped(entries);
    }
    Page page(screen);
    for (const Json& item : list) {
        page.paragraph("", item["id"].get<std::string>());
        page.paragraph("    ", item["name"].get<std::string>());
        if (item.contains("more")) page.paragraph("    ", item["more"].get<std::string>());
    }
    return page.take();
}

std::string show_entry(const RuleBase& rule_base, const std::string& kind, const std::string& id, bool json,
                       const Screen& screen) {
    const Json entry = entry_of(rule_base, Describer(rule_base), kind, id);
    if (json) return dumped(entry);
    Page page(screen);
    print_entry(page, entry, "");
    return page.take();
}

}  // namespace lidlift::cli
