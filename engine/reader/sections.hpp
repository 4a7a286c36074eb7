// One function for each section: entries -> the rule base. Every id is already declared when they run, so order between entries
// does not matter.
#pragma once

#include "engine/nearest_name.hpp"
#include "engine/reader/entry.hpp"
#include "engine/reader/merge.hpp"
#include "engine/rule_base.hpp"

namespace lidlift::reader {

void read_about(const YamlNode& node, RuleBase& rule_base, Complaints& complaints);
void read_weighing(const YamlNode& node, RuleBase& rule_base, Complaints& complaints);
void read_source(const NamedEntry& named, Source& source, Complaints& complaints);
void read_sign(const NamedEntry& named, Sign& sign, const RuleBase& rule_base, Complaints& complaints);
void read_conclusion(const NamedEntry& named, Conclusion& conclusion, const RuleBase& rule_base, Complaints& complaints);
void read_rule(const NamedEntry& named, Rule& rule, const RuleBase& rule_base, Complaints& complaints);
void read_cause(const NamedEntry& named, Cause& cause, const RuleBase& rule_base, Complaints& complaints);
void read_step(const NamedEntry& named, Step& step, const RuleBase& rule_base, Complaints& complaints);
void read_caution(const NamedEntry& named, Caution& caution, const RuleBase& rule_base, Complaints& complaints);
void read_clash(const NamedEntry& named, Clash& clash, const RuleBase& rule_base, Complaints& complaints);
void read_material(const NamedEntry& named, Material& material, const RuleBase& rule_base, Complaints& complaints);
/// One item of the section "reviewed".
void read_reviewed(const YamlNode& node, RuleBase& rule_base, Complaints& complaints);

/// Puts rules into an order in which each comes after those whose conclusions it uses; complains of every circle, showing it.
void order_rules(RuleBase& rule_base, Complaints& complaints);

/// The list under `key` as sources; complains when it is missing and `need` says so.
[[nodiscard]] Sources read_sources(Entry& entry, const RuleBase& rule_base, Need need = Need::required);

/// A kind of step, a push, or the name of one step, as `never` of a clash takes it; anything else is a complaint and none.
[[nodiscard]] std::optional<StepGroup> read_step_group(const YamlNode& node, const RuleBase& rule_base, Complaints& complaints);

/// A share such as "2 %", between `low` and `high` per cent, as a number from 0 to 1.
[[nodiscard]] std::optional<double> read_share(const YamlNode& node, double low, double high, Complaints& complaints);

/// An optional condition under `key`; `text` receives it as written, `place` where it stands.
[[nodiscard]] std::optional<Condition> read_when(Entry& entry, std::string_view key, std::string& text, Place& place,
                                                 const RuleBase& rule_base);

inline constexpr std::size_t most_measured_out = 8;

/// What the step of `entry` measures out; materials have to be read before.
[[nodiscard]] std::vector<MeasuredOut> read_measured_out(Entry& entry, const RuleBase& rule_base);

/// The entries of one kind that a list names.
template <class T>
std::vector<Handle<T>> read_names(Entry& entry, std::string_view key, const Catalogue<T>& known, const std::string& one) {
    std::vector<Handle<T>> result;
    for (const YamlNode* item : entry.list(key)) {
        if (!require_text(*item, "the name of a " + one, entry.complaints())) continue;
        const auto handle = known.find(item->text);
        if (handle)
            result.push_back(*handle);
        else
            entry.complain(item->place, "there is no " + one + " '" + item->text + "'",
                           nearest_of(entry.complaints(), item->text, [&] { return known.ids(); }));
    }
    return result;
}

}  // namespace lidlift::reader
