// The chapters around the others: how to read the handbook, conclusions and rules, sources; and all of them in their order.
#include "cli/handbook_document.hpp"
#include "cli/handbook_scribe.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

void write_words(Scribe& scribe) {
    std::vector<std::vector<Line>> rows;
    for (const std::string& word : commonness_words())
        rows.push_back({strong(word), plain(percent(*commonness(word)) + " of the beds that people ask about")});
    scribe.group("How common a cause is");
    scribe.table({"Word", "Stands for"}, std::move(rows));
    if (scribe.base.weighing.expected_causes)
        scribe.paragraph(
            plain(fmt::format("These are relative: all together are scaled down until a call expects no more than {:g} causes.",
                              *scribe.base.weighing.expected_causes)));

    rows.clear();
    for (const std::string& word : frequency_words())
        rows.push_back({strong(word), plain(fmt::format("about {:.3g} beds in 100", 100 * *frequency(word)))});
    scribe.group("How often a thing is seen");
    scribe.paragraph(
        plain("\"Seen usually\" on a cause's sign: of a hundred beds that have this cause and no other, about eighty show the "
              "sign. \"Seen anyway\" "
              "on a sign: of a hundred beds with none of the listed causes. A sign that a cause brings usually, and that is "
              "looked for and not there, speaks against the cause."));
    scribe.table({"Word", "Stands for"}, std::move(rows));

    rows.clear();
    for (const std::string& word : odds_words())
        rows.push_back({strong("points " + word), plain(fmt::format("odds times {:.3g}", *odds_factor(word))),
                        plain(fmt::format("{:+.1f}", 10 * std::log10(*odds_factor(word))))});
    scribe.group("How far a thing points");
    scribe.paragraph(
        plain("What seeing it does to the odds of the cause. Ten points are a factor of ten, three points a factor of two."));
    scribe.table({"Word", "Stands for", "Points"}, std::move(rows));
}

void write_likelihoods(Scribe& scribe) {
    std::vector<std::vector<Line>> rows;
    std::string last;
    for (int thousandth = 1000; thousandth >= 0; --thousandth) {
        const std::string words = likelihood_words(thousandth / 1000.0);
        if (words == last) continue;
        last = words;
        const std::size_t range = words.find(" (");
        rows.push_back({strong(words.substr(0, range)), plain(words.substr(range + 2, words.size() - range - 3))});
    }
    scribe.group("How likely a cause is, when the program answers");
    scribe.table({"Word", "Chance"}, std::move(rows));
}

void write_other_words(Scribe& scribe) {
    scribe.group("Other words");
    scribe.particulars(
        {{"Effort", plain("what finding out costs: look, touch, dig, measure, or wait some days")},
         {"Circumstance", plain("what came before the cause, such as feed, weather or days since the worms went in; it makes a "
                                "cause likelier and is explained by none")},
         {"Cannot be when, must be when", plain("hard logic, whatever the weights say")},
         {"Done from a chance of", plain("a step is shown once it is this likely that one of its causes is there: 20 % for a "
                                         "harmless step, 50 % for a costly, 80 % for a drastic one")},
         {"Strictness", plain("of steps about feeding only the strictest stays: 1 is mild, 5 is no feed at all")},
         {"Not known", plain("what nobody looked at is unknown, and never counts as no")},
         {"common practice", plain("what the trade does or judges, without a published source")},
         {"from memory", plain("believed published, but the source was not at hand")}});
}

void write_rules_of(Scribe& scribe, Handle<Conclusion> conclusion) {
    for (std::uint32_t i = 0; i < scribe.base.rules.size(); ++i) {
        const Rule& rule = scribe.base.rules[Handle<Rule>{i}];
        if (rule.then != conclusion) continue;
        scribe.part("By the rule " + spoken(rule.id), "rule-" + rule.id);
        scribe.index_it("rule", rule.id, spoken(rule.id));
        scribe.particulars({{"When", scribe.condition(rule.when_text)}, {"Because", plain(rule.because)}});
        scribe.sources(rule.sources);
    }
}

void write_source(Scribe& scribe, Handle<Source> handle) {
    const Source& source = scribe.base.sources[handle];
    scribe.entry("source", source.id, source.title, source.title);
    scribe.aside(code(source.id));
    const auto& resting = scribe.refs.resting_on[handle.index];
    std::vector<Line> parts;
    for (const Resting& item : resting) {
        Line line = plain(item.kind + " ");
        if (item.kind == "sign") line = std::move(line) + scribe.link(*scribe.base.signs.find(item.id));
        if (item.kind == "rule") line = std::move(line) + scribe.link(*scribe.base.rules.find(item.id));
        if (item.kind == "cause") line = std::move(line) + scribe.link(*scribe.base.causes.find(item.id));
        if (item.kind == "step") line = std::move(line) + scribe.link(*scribe.base.steps.find(item.id));
        if (item.kind == "caution") line = std::move(line) + scribe.link(*scribe.base.cautions.find(item.id));
        if (item.kind == "clash") line = std::move(line) + scribe.link(*scribe.base.clashes.find(item.id));
        if (item.kind == "material") line = std::move(line) + scribe.link(*scribe.base.materials.find(item.id));
        if (item.kind == "section") line = std::move(line) + plain(item.id);
        if (item.alone) line = std::move(line) + plain(" (on this alone)");
        parts.push_back(std::move(line));
    }
    scribe.particulars(
        {{"By", plain(source.by)},
         {"Year", plain(source.year)},
         {"Where", plain(source.where)},
         {"Standing", strong(source.standing)},
         {"What rests on it", parts.empty() ? plain("nothing yet") : plain(counted(resting) + ": ") + joined(parts, "; ")}});
}

}  // namespace

void write_how_to_read(Scribe& scribe) {
    scribe.chapter("how-to-read", "How to read this");
    scribe.paragraph(
        plain("This is everything that the program knows, in the words in which it was written, so that somebody who knows the "
              "trade can read it on paper and correct it. Trainers write words, never figures; these are the figures that the "
              "words stand for."));
    write_words(scribe);
    write_likelihoods(scribe);
    write_other_words(scribe);
}

void write_conclusions(Scribe& scribe) {
    scribe.chapter("conclusions", "Conclusions and rules");
    scribe.paragraph(
        plain("Facts that follow from signs. A conclusion holds when one of its rules does, does not hold when all of them "
              "fail, and is not "
              "known otherwise."));
    for (std::uint32_t i = 0; i < scribe.base.conclusions.size(); ++i) {
        const Handle<Conclusion> handle{i};
        const Conclusion& conclusion = scribe.base.conclusions[handle];
        scribe.entry("conclusion", conclusion.id, capitalised(conclusion.means), conclusion.means);
        scribe.aside(code(conclusion.id));
        const Mentioners& by = scribe.refs.of_conclusion[i];
        std::vector<Handle<Conclusion>> excludes = conclusion.excludes;
        for (std::uint32_t other = 0; other < scribe.base.conclusions.size(); ++other) {
            const auto& named = scribe.base.conclusions[Handle<Conclusion>{other}].excludes;
            const bool there = std::ranges::find(excludes, Handle<Conclusion>{other}) != excludes.end();
            if (!there && std::ranges::find(named, handle) != named.end()) excludes.push_back({other});
        }
        scribe.particulars({{"Seen anyway", plain(conclusion.seen_anyway ? frequency_in_words(*conclusion.seen_anyway) : "")},
                            {"Same observation", plain(spoken(conclusion.same_observation))},
                            {"Never together with", scribe.links(excludes)},
                            {"Used in", by.empty() ? plain("nothing yet") : scribe.mentioners(by)}});
        write_rules_of(scribe, handle);
    }
}

void write_sources(Scribe& scribe) {
    scribe.chapter("sources", "Sources by kind");
    scribe.paragraph(plain("With how much of each was read, and everything in this handbook that rests on it."));
    std::vector<std::string> kinds;
    for (const Source& source : scribe.base.sources)
        if (std::ranges::find(kinds, source.kind) == kinds.end()) kinds.push_back(source.kind);
    for (const std::string& kind : kinds) {
        scribe.group(kind);
        for (std::uint32_t i = 0; i < scribe.base.sources.size(); ++i)
            if (scribe.base.sources[Handle<Source>{i}].kind == kind) write_source(scribe, {i});
    }
}

/// What `lidlift check` advises and the rule base answers.
void write_reviewed(Scribe& scribe) {
    if (scribe.base.reviewed.empty()) return;
    scribe.chapter("reviewed", "Advice considered");
    scribe.paragraph(plain("Advice of lidlift check that was looked at and not taken, with the reason."));
    for (const Reviewed& reviewed : scribe.base.reviewed) {
        std::vector<Line> about;
        for (const std::string& id : reviewed.about) about.push_back(code(id));
        scribe.particulars({{"Advice", plain(spoken(reviewed.kind))},
                            {"About", joined(about, ", ")},
                            {"Stays because", plain(reviewed.because)}});
        scribe.sources(reviewed.sources);
    }
}

Document handbook_document(const RuleBase& base) {
    Scribe scribe(base);
    scribe.add(Heading{1, "top", {}, base.name});
    scribe.paragraph(plain(
        fmt::format("Version {}. {} causes, {} signs, {} steps, {} cautions, {} clashes, {} materials, {} rules, {} sources.",
                    base.version, base.causes.size(), base.signs.size(), base.steps.size(), base.cautions.size(),
                    base.clashes.size(), base.materials.size(), base.rules.size(), base.sources.size())));
    scribe.add(Contents{});
    write_how_to_read(scribe);
    write_dangers(scribe);
    write_signs(scribe);
    write_causes(scribe);
    write_steps(scribe);
    write_clashes(scribe);
    write_materials(scribe);
    write_conclusions(scribe);
    write_sources(scribe);
    write_reviewed(scribe);
    scribe.chapter("index", "Everything by name");
    scribe.index();
    return scribe.take(base.name + ", version " + base.version);
}

}  // namespace lidlift::cli
