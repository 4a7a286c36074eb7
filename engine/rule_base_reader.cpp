#include "engine/rule_base_reader.hpp"

#include "engine/reader/merge.hpp"
#include "engine/reader/sections.hpp"

#include <algorithm>

namespace lidlift {
namespace {

using namespace reader;

/// Adds an entry for every name, empty but for id and place, so that entries can refer to one another whatever their order.
template <class T>
void declare(const std::vector<NamedEntry>& section, Catalogue<T>& catalogue) {
    for (const NamedEntry& named : section) {
        T entry;
        entry.id = named.id;
        entry.place = named.place;
        catalogue.add(std::move(entry));
    }
}

template <class T, class Read>
void fill(const std::vector<NamedEntry>& section, Catalogue<T>& catalogue, const Read& read) {
    for (const NamedEntry& named : section) read(named, catalogue[*catalogue.find(named.id)]);
}

void add_standing_sources(Catalogue<Source>& sources) {
    const auto add = [&](const char* id, const char* title) {
        if (sources.find(id)) return;
        Source source;
        source.id = id;
        source.title = title;
        source.kind = "trade";
        source.standing = "no published source";
        sources.add(std::move(source));
    };
    add("common_practice", "Common practice of the trade, or its judgement; no published source");
    add("from_memory", "Believed published; written down from memory, the source was not at hand");
}

void complain_of_shared_names(const RuleBase& rule_base, Complaints& complaints) {
    for (const Conclusion& conclusion : rule_base.conclusions)
        if (const auto sign = rule_base.signs.find(conclusion.id))
            complaints.add(conclusion.place,
                           "'" + conclusion.id + "' is also the name of a sign, at " + to_text(rule_base.signs[*sign].place));
}

}  // namespace

RuleBaseReading read_rule_base(std::span<const RuleText> files) {
    Complaints complaints;
    RuleBaseReading reading;
    RuleBase& base = reading.rule_base;
    const Sections sections = merge_files(files, complaints);
    base.changes = sections.changes;

    declare(sections.sources, base.sources);
    add_standing_sources(base.sources);
    declare(sections.signs, base.signs);
    declare(sections.conclusions, base.conclusions);
    declare(sections.rules, base.rules);
    declare(sections.causes, base.causes);
    declare(sections.steps, base.steps);
    declare(sections.cautions, base.cautions);
    declare(sections.clashes, base.clashes);
    declare(sections.materials, base.materials);
    complain_of_shared_names(base, complaints);

    read_about(sections.about, base, complaints);
    fill(sections.sources, base.sources, [&](const auto& named, Source& source) { read_source(named, source, complaints); });
    read_weighing(sections.weighing, base, complaints);
    fill(sections.signs, base.signs, [&](const auto& named, Sign& sign) { read_sign(named, sign, base, complaints); });
    if (const auto stage = base.signs.find("stage"); stage && base.signs[*stage].sort == SignSort::one_of) base.stage = stage;
    fill(sections.conclusions, base.conclusions,
         [&](const auto& named, Conclusion& conclusion) { read_conclusion(named, conclusion, base, complaints); });
    fill(sections.rules, base.rules, [&](const auto& named, Rule& rule) { read_rule(named, rule, base, complaints); });
    fill(sections.cautions, base.cautions,
         [&](const auto& named, Caution& caution) { read_caution(named, caution, base, complaints); });
    fill(sections.materials, base.materials,
         [&](const auto& named, Material& material) { read_material(named, material, base, complaints); });
    fill(sections.steps, base.steps, [&](const auto& named, Step& step) { read_step(named, step, base, complaints); });
    fill(sections.clashes, base.clashes, [&](const auto& named, Clash& clash) { read_clash(named, clash, base, complaints); });
    fill(sections.causes, base.causes, [&](const auto& named, Cause& cause) { read_cause(named, cause, base, complaints); });
    for (const YamlNode& item : sections.reviewed) read_reviewed(item, base, complaints);
    if (!base.conclusions.empty()) order_rules(base, complaints);

    reading.complaints = complaints.sorted();
    return reading;
}

}  // namespace lidlift
