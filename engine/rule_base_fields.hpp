// Every field of the rule base, struct by struct, said once: what is written into an image is what is read from it
// (engine/rule_base_image). Each list takes its struct apart as a whole, so a field that is added to the struct and not here
// does not compile.
#pragma once

#include "engine/rule_base.hpp"

#include <concepts>
#include <type_traits>

namespace lidlift {

/// A T to be read into, or a const T to be written.
template <class Given, class T>
concept Either = std::same_as<std::remove_const_t<Given>, T>;

/// What callers say for something, which only hearing, review and the handbook need; `list` is a vector of texts.
template <class List>
struct Phrases {
    List& list;
};
template <class List>
Phrases(List&) -> Phrases<List>;

/// The greatest value of each enumeration.
template <class Enum>
inline constexpr Enum last_of = Enum::unknown;
template <>
inline constexpr SignSort last_of<SignSort> = SignSort::quantity;
template <>
inline constexpr Effort last_of<Effort> = Effort::wait;
template <>
inline constexpr When last_of<When> = When::from_now_on;
template <>
inline constexpr StepKind last_of<StepKind> = StepKind::care;
template <>
inline constexpr Pushed last_of<Pushed> = Pushed::mixing;
template <>
inline constexpr Level last_of<Level> = Level::note;
template <>
inline constexpr Standing last_of<Standing> = Standing::practice;
template <>
inline constexpr MaterialRole last_of<MaterialRole> = MaterialRole::finished;
template <>
inline constexpr Stuff::Kind last_of<Stuff::Kind> = Stuff::Kind::worms;
template <>
inline constexpr Where last_of<Where> = Where::next_bay;
template <>
inline constexpr TankPart::What last_of<TankPart::What> = TankPart::What::feed_of_a_day;
template <>
inline constexpr ReachGoal::Goal last_of<ReachGoal::Goal> = ReachGoal::Goal::carbon_to_nitrogen;
template <>
inline constexpr MeasuredBy last_of<MeasuredBy> = MeasuredBy::volume;
template <>
inline constexpr Rate::Each last_of<Rate::Each> = Rate::Each::litre_of_filling;

void each_field(Either<Place> auto& entry, auto& fields) {
    auto& [file, line, column] = entry;
    fields(file, line, column);
}

void each_field(Either<Estimate> auto& entry, auto& fields) {
    auto& [low, typical, high] = entry;
    fields(low, typical, high);
}

void each_field(Either<Range> auto& entry, auto& fields) {
    auto& [low, high, low_included, high_included] = entry;
    fields(low, high, low_included, high_included);
}

void each_field(Either<Says> auto& entry, auto& fields) {
    auto& [sign, answers] = entry;
    fields(sign, answers);
}

void each_field(Either<Lies> auto& entry, auto& fields) {
    auto& [sign, range] = entry;
    fields(sign, range);
}

void each_field(Either<Concluded> auto& entry, auto& fields) {
    auto& [conclusion] = entry;
    fields(conclusion);
}

void each_field(Either<SignKnown> auto& entry, auto& fields) {
    auto& [sign] = entry;
    fields(sign);
}

void each_field(Either<ConclusionKnown> auto& entry, auto& fields) {
    auto& [conclusion] = entry;
    fields(conclusion);
}

void each_field(Either<Negation> auto& entry, auto& fields) {
    auto& [child] = entry;
    fields(child);
}

void each_field(Either<Quorum> auto& entry, auto& fields) {
    auto& [wanted, children] = entry;
    fields(wanted, children);
}

void each_field(Either<Condition> auto& entry, auto& fields) {
    auto& [node] = entry;
    fields(node);
}

void each_field(Either<Stuff> auto& entry, auto& fields) {
    auto& [kind, material] = entry;
    fields(kind);
    if (kind == Stuff::Kind::material) fields(material);
}

void each_field(Either<TankPart> auto& entry, auto& fields) {
    auto& [what, where, depth] = entry;
    fields(what, where, depth);
}

void each_field(Either<ReachGoal> auto& entry, auto& fields) {
    auto& [part, goal, to] = entry;
    fields(part, goal, to);
}

void each_field(Either<LayOver> auto& entry, auto& fields) {
    auto& [metres, half, where] = entry;
    fields(metres, half, where);
}

void each_field(Either<Rate> auto& entry, auto& fields) {
    auto& [size, by, each, part, filling] = entry;
    fields(size, by, each, part, filling);
}

void each_field(Either<DoseOut> auto& entry, auto& fields) {
    auto& [rate, in_all, a_day] = entry;
    fields(rate, in_all, a_day);
}

void each_field(Either<AmountFormula> auto& entry, auto& fields) {
    auto& [of, how, limits, portions] = entry;
    fields(of, how, limits, portions);
}

void each_field(Either<MeasuredOut> auto& entry, auto& fields) {
    auto& [formula, text, place] = entry;
    fields(formula, text, place);
}

void each_field(Either<Source> auto& entry, auto& fields) {
    auto& [id, title, by, year, where, kind, standing, place] = entry;
    fields(id, title, by, year, where, kind, standing, place);
}

void each_field(Either<Answer> auto& entry, auto& fields) {
    auto& [id, means, seen_anyway, the_rest, none_of_these, below, heard_as, perhaps_heard_as] = entry;
    fields(id, means, seen_anyway, the_rest, none_of_these, below, Phrases{heard_as}, Phrases{perhaps_heard_as});
}

void each_field(Either<Sign> auto& entry, auto& fields) {
    auto& [id, name, ask, check, topic, effort, hard_to_tell, sort, answers, unit, plausible, same_observation,
           heard_in_questions, narrowed_by, sources, place] = entry;
    fields(id, name, ask, check, topic, effort, hard_to_tell, sort, answers, unit, plausible, same_observation,
           heard_in_questions, narrowed_by, sources, place);
}

void each_field(Either<Conclusion> auto& entry, auto& fields) {
    auto& [id, means, seen_anyway, same_observation, excludes, place] = entry;
    fields(id, means, seen_anyway, same_observation, excludes, place);
}

void each_field(Either<Rule> auto& entry, auto& fields) {
    auto& [id, when, when_text, when_place, then, because, sources, place] = entry;
    fields(id, when, when_text, when_place, then, because, sources, place);
}

void each_field(Either<Link> auto& entry, auto& fields) {
    auto& [when, when_text, factor, seen, words, sources, place] = entry;
    fields(when, when_text, factor, seen, words, sources, place);
}

void each_field(Either<Circumstance> auto& entry, auto& fields) {
    auto& [when, when_text, weight, words, sources, place] = entry;
    fields(when, when_text, weight, words, sources, place);
}

void each_field(Either<Cause> auto& entry, auto& fields) {
    auto& [id, code, name, how_common, how_common_words, stages, because, made_likelier_by, links, cannot_be_when,
           cannot_be_when_text, cannot_be_when_place, must_be_when, must_be_when_text, must_be_when_place, not_together_with,
           alone, benign, brings_about, steps, cautions, avoid, look_again_days, expect, told_apart_by, not_to_confuse_with,
           guides_differ, sources, place] = entry;
    fields(id, code, name, how_common, how_common_words, stages, because, made_likelier_by, links, cannot_be_when,
           cannot_be_when_text, cannot_be_when_place, must_be_when, must_be_when_text, must_be_when_place, not_together_with,
           alone, benign, brings_about, steps, cautions, avoid, look_again_days, expect, told_apart_by, not_to_confuse_with,
           guides_differ, sources, place);
}

void each_field(Either<Push> auto& entry, auto& fields) {
    auto& [what, up] = entry;
    fields(what, up);
}

void each_field(Either<Step> auto& entry, auto& fields) {
    auto& [id, say, when, kind, pushes, strictness, needed_chance, cautions, never_when, never_when_text, never_when_place,
           check_first, amount, measured_out, because, sources, place] = entry;
    fields(id, say, when, kind, pushes, strictness, needed_chance, cautions, never_when, never_when_text, never_when_place,
           check_first, amount, measured_out, because, sources, place);
}

void each_field(Either<CalledForBy> auto& entry, auto& fields) {
    auto& [kinds, pushes, words] = entry;
    fields(kinds, pushes, words);
}

void each_field(Either<Caution> auto& entry, auto& fields) {
    auto& [id, name, level, say, when, when_text, when_place, emergency, called_for_by, sources, place] = entry;
    fields(id, name, level, say, when, when_text, when_place, emergency, called_for_by, sources, place);
}

void each_field(Either<Clash> auto& entry, auto& fields) {
    auto& [id, never, when, when_text, when_place, say, check_first, between, find_out, because, sources, place] = entry;
    fields(id, never, when, when_text, when_place, say, check_first, between, find_out, because, sources, place);
}

void each_field(Either<Figure> auto& entry, auto& fields) {
    auto& [value, standing, range_standing, disputed, note, sources, place] = entry;
    fields(value, standing, range_standing, disputed, note, sources, place);
}

void each_field(Either<Material> auto& entry, auto& fields) {
    auto& [id, name, role, heard_as, moisture, nitrogen, carbon_to_nitrogen, density, shares, tells, cautions, keep_from_worms,
           note, sources, place] = entry;
    fields(id, name, role, Phrases{heard_as}, moisture, nitrogen, carbon_to_nitrogen, density, shares, tells, cautions,
           keep_from_worms, note, sources, place);
}

void each_field(Either<WeighingFigures> auto& entry, auto& fields) {
    auto& [expected_causes, wrong_when_sure, wrong_when_unsure, wrong_when_guess, same_observation_counts, largest_set, sources,
           place] = entry;
    fields(expected_causes, wrong_when_sure, wrong_when_unsure, wrong_when_guess, same_observation_counts, largest_set, sources,
           place);
}

void each_field(Either<Reviewed> auto& entry, auto& fields) {
    auto& [kind, about, because, sources, place] = entry;
    fields(kind, about, because, sources, place);
}

/// All but the sizes of the catalogues, which are known before: handles are held to them.
void each_field(Either<RuleBase> auto& entry, auto& fields) {
    auto& [name, version, weighing, sources, signs, conclusions, rules, rule_order, rules_for, causes, steps, cautions, clashes,
           materials, reviewed, stage, changes] = entry;
    fields(name, version, weighing, sources, signs, conclusions, rules, rule_order, rules_for, causes, steps, cautions, clashes,
           materials, reviewed, stage, changes);
}

}  // namespace lidlift
