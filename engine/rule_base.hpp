// The rule base as plain values: what rules/FORMAT.md describes, read, checked and resolved. Nothing here knows YAML.
#pragma once

#include "engine/amount_formula.hpp"
#include "engine/catalogue.hpp"
#include "engine/complaint.hpp"
#include "engine/condition.hpp"
#include "engine/estimate.hpp"
#include "engine/quantity.hpp"

#include <array>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace lidlift {

/// Where a statement comes from, and how much of it was read.
struct Source {
    std::string id;
    std::string title;
    std::string by;
    std::string year;
    std::string where;
    std::string kind;
    std::string standing;
    Place place;
    friend bool operator==(const Source&, const Source&) = default;
};
using Sources = std::vector<Handle<Source>>;

/// One answer to a sign, or one band of a quantity.
struct Answer {
    std::string id;
    std::string means;
    std::optional<double>
        seen_anyway;  ///< share of beds without any listed cause that show it; for "the rest" what remains; none: not given
    bool the_rest = false;
    bool none_of_these = false;
    std::optional<double> below;  ///< band: its upper end, not included; none for the last band
    std::vector<std::string> heard_as;
    std::vector<std::string> perhaps_heard_as;  ///< may mean this, or something else: the sign is asked
    friend bool operator==(const Answer&, const Answer&) = default;
};

enum class SignSort { yes_no, one_of, several, quantity };
enum class Effort { look, touch, dig, measure, wait };

/// Something a person can smell, see, squeeze, measure or be asked. A yes/no sign has the answers yes (position 0) and no (1).
struct Sign {
    std::string id;
    std::string name;
    std::string ask;
    std::string check;
    std::string topic;
    Effort effort = Effort::look;
    double hard_to_tell = 0.02;  ///< share of callers who do not know
    SignSort sort = SignSort::yes_no;
    std::vector<Answer> answers;
    const Unit* unit = nullptr;  ///< quantity only
    Range plausible;             ///< quantity only
    std::string same_observation;
    bool heard_in_questions = false;        ///< asking about it is a sign of it: "may I spray?", "is it safe to eat?"
    std::vector<Handle<Sign>> narrowed_by;  ///< of a vague sign such as a bad smell: what to ask when no more than it was told
    Sources sources;
    Place place;
    friend bool operator==(const Sign&, const Sign&) = default;

    [[nodiscard]] std::optional<std::size_t> find_answer(std::string_view answer) const;
    /// The numbers that band `position` of a quantity holds.
    [[nodiscard]] Range band(std::size_t position) const;
    /// The bands that a measured range meets.
    [[nodiscard]] AnswerSet bands_meeting(const Range& range) const;
};

/// A fact that rules derive.
struct Conclusion {
    std::string id;
    std::string means;
    std::optional<double> seen_anyway;
    std::string same_observation;
    std::vector<Handle<Conclusion>> excludes;  ///< these never hold beside it; a review looks whether the rules keep to that
    Place place;
    friend bool operator==(const Conclusion&, const Conclusion&) = default;
};

struct Rule {
    std::string id;
    Condition when;
    std::string when_text;
    Place when_place;  ///< of the condition, as in every `..._place` below
    Handle<Conclusion> then;
    std::string because;
    Sources sources;
    Place place;
    friend bool operator==(const Rule&, const Rule&) = default;
};

/// What a link hangs on: some answers of a sign, or a conclusion.
using Observable = std::variant<Says, Concluded>;

struct Link {
    Observable when;
    std::string when_text;
    double factor = 1;           ///< for `points`: odds factor; for `seen`: chance / background
    std::optional<double> seen;  ///< chance that the cause alone shows it, when written as `seen`
    std::string words;           ///< "seen usually", "points strongly against"
    Sources sources;
    Place place;
    friend bool operator==(const Link&, const Link&) = default;
};

struct Circumstance {
    Condition when;
    std::string when_text;
    double weight = 0;  ///< decibans added to the cause's prior while `when` holds
    std::string words;
    Sources sources;
    Place place;
    friend bool operator==(const Circumstance&, const Circumstance&) = default;
};

struct Step;
struct Caution;
struct Clash;

/// Something to keep from doing: a clash, or a sentence of its own.
using Avoided = std::variant<Handle<Clash>, std::string>;

struct Cause {
    std::string id;
    std::string code;
    std::string name;
    double how_common = 0;
    std::string how_common_words;
    AnswerSet stages = ~AnswerSet{0};  ///< answers of the sign `stage`
    std::string because;
    std::vector<Circumstance> made_likelier_by;
    std::vector<Link> links;
    std::optional<Condition> cannot_be_when;
    std::string cannot_be_when_text;
    Place cannot_be_when_place;
    std::optional<Condition> must_be_when;
    std::string must_be_when_text;
    Place must_be_when_place;
    std::vector<Handle<Cause>> not_together_with;
    bool alone = false;
    bool benign = false;
    std::vector<Handle<Cause>> brings_about;
    std::vector<Handle<Step>> steps;
    std::vector<Handle<Caution>> cautions;
    std::vector<Avoided> avoid;
    std::vector<double> look_again_days;
    std::string expect;
    std::string told_apart_by;
    std::vector<Handle<Cause>> not_to_confuse_with;
    std::string guides_differ;
    Sources sources;
    Place place;
    friend bool operator==(const Cause&, const Cause&) = default;
};

enum class When { now, this_week, from_now_on };

/// In the order in which steps are taken: people first, lime only after everything milder, restocking last.
enum class StepKind { people, air, drain, heat, remove, dry_matter, water, feed, lime, pests, worms, watch, care };

enum class Pushed { moisture, air, heat, feed, ph, worms, cover, salt, mixing };
struct Push {
    Pushed what = Pushed::moisture;
    bool up = true;
    friend bool operator==(const Push&, const Push&) = default;
};

struct Step {
    std::string id;
    std::string say;
    When when = When::now;
    StepKind kind = StepKind::watch;
    std::vector<Push> pushes;
    int strictness = 0;          ///< 1-5, kind feed only
    double needed_chance = 0.5;  ///< shown when the chance that it is needed reaches this
    std::vector<Handle<Caution>> cautions;
    std::optional<Condition> never_when;
    std::string never_when_text;
    Place never_when_place;
    std::string check_first;
    std::string amount;                     ///< a rule of hand
    std::vector<MeasuredOut> measured_out;  ///< how much of what for a tank of which there is a record
    std::string because;
    Sources sources;
    Place place;
    friend bool operator==(const Step&, const Step&) = default;
};

enum class Level { stop, warn, note };

/// What makes a step hazardous: a step of one of these kinds, that pushes one of these ways, or whose words begin with one of
/// these has to name the caution.
struct CalledForBy {
    std::vector<StepKind> kinds;
    std::vector<Push> pushes;
    std::vector<std::string> words;  ///< lower case; each a beginning of a word, or several words in a row
    friend bool operator==(const CalledForBy&, const CalledForBy&) = default;
};

struct Caution {
    std::string id;
    std::string name;
    Level level = Level::warn;
    std::string say;
    std::optional<Condition> when;
    std::string when_text;
    Place when_place;
    bool emergency = false;
    CalledForBy called_for_by;
    Sources sources;
    Place place;
    friend bool operator==(const Caution&, const Caution&) = default;
};

/// What a clash speaks of: a kind of step, one step, or all steps that push a quantity one way.
using StepGroup = std::variant<StepKind, Handle<Step>, Push>;

/// One-sided: while `when` holds, no step of `never`. Two-sided (`between`): one of the two at most, and `find_out` settles it.
struct Clash {
    std::string id;
    std::vector<StepGroup> never;
    std::optional<Condition> when;
    std::string when_text;
    Place when_place;
    std::string say;
    std::string check_first;
    std::vector<StepGroup> between;  ///< empty or two
    std::optional<Handle<Sign>> find_out;
    std::string because;
    Sources sources;
    Place place;
    friend bool operator==(const Clash&, const Clash&) = default;
};

[[nodiscard]] bool matches(const StepGroup& group, const Step& step, Handle<Step> handle);

/// How a figure came to us.
enum class Standing { read, memory, derived, practice };

/// One published figure of a material, with the range in which it is found.
struct Figure {
    Estimate value;
    Standing standing = Standing::memory;        ///< of the typical value
    Standing range_standing = Standing::memory;  ///< of the two ends
    bool disputed = false;                       ///< sources differ by a factor of two or more
    std::string note;
    Sources sources;  ///< its own; empty: those of its material hold
    Place place;
    friend bool operator==(const Figure&, const Figure&) = default;
};

/// What goes into a bed or a heap, by the part it plays there.
enum class MaterialRole { feed, dry_matter, dung, liquid, mineral, finished };

/// A material: how wet it is, what nitrogen it holds, how heavy it lies.
struct Material {
    std::string id;
    std::string name;
    MaterialRole role = MaterialRole::feed;
    std::vector<std::string> heard_as;
    std::optional<Figure> moisture;            ///< % of fresh mass
    std::optional<Figure> nitrogen;            ///< % of dry mass
    std::optional<Figure> carbon_to_nitrogen;  ///< by mass
    std::optional<Figure> density;             ///< kg/m3, loose, as it is
    std::vector<Handle<Sign>> shares;          ///< signs with the answers none, some, lots that its share of the feed answers
    std::vector<Says> tells;                   ///< answers that giving it at all is
    std::vector<Handle<Caution>> cautions;     ///< for handling it
    std::string keep_from_worms;               ///< why it has no place in a worm bed; empty: it may
    std::string note;
    Sources sources;
    Place place;
    friend bool operator==(const Material&, const Material&) = default;
};

/// The figures of rules/FORMAT.md section 9.
struct WeighingFigures {
    std::optional<double> expected_causes;
    double wrong_when_sure = 0;
    double wrong_when_unsure = 0.10;
    double wrong_when_guess = 0.25;
    double same_observation_counts = 0.3;
    int largest_set = 3;
    Sources sources;
    Place place;
    friend bool operator==(const WeighingFigures&, const WeighingFigures&) = default;
};

/// An answer to a piece of advice of the review: why it stays as it is.
struct Reviewed {
    std::string kind;                ///< one of review/kinds
    std::vector<std::string> about;  ///< ids of the entries that the advice speaks of
    std::string because;
    Sources sources;
    Place place;
    friend bool operator==(const Reviewed&, const Reviewed&) = default;
};

struct RuleBase {
    std::string name = "unnamed rule base";
    std::string version = "0";
    WeighingFigures weighing;
    Catalogue<Source> sources;
    Catalogue<Sign> signs;
    Catalogue<Conclusion> conclusions;
    Catalogue<Rule> rules;
    /// Rules in an order in which each comes after those whose conclusions it uses; conclusions likewise.
    std::vector<Handle<Rule>> rule_order;
    std::vector<std::vector<Handle<Rule>>> rules_for;  ///< by conclusion: the rules that may conclude it
    Catalogue<Cause> causes;
    Catalogue<Step> steps;
    Catalogue<Caution> cautions;
    Catalogue<Clash> clashes;
    Catalogue<Material> materials;
    std::vector<Reviewed> reviewed;
    std::optional<Handle<Sign>> stage;  ///< the sign `stage`, if there is one
    std::vector<std::string> changes;   ///< "rules.yaml:3:1: replaces the cause blocked_drain of default.yaml:9:3"
    friend bool operator==(const RuleBase&, const RuleBase&) = default;
};

[[nodiscard]] std::string_view to_word(SignSort sort);
[[nodiscard]] std::string_view to_word(Effort effort);
[[nodiscard]] std::string_view to_word(When when);
[[nodiscard]] std::string_view to_word(StepKind kind);
[[nodiscard]] std::string_view to_word(Pushed pushed);
[[nodiscard]] std::string_view to_word(Level level);
[[nodiscard]] std::string_view to_word(Standing standing);
[[nodiscard]] std::string_view to_word(MaterialRole role);
[[nodiscard]] std::string to_text(const Push& push);

/// Position of `word` in an enumeration's words, for reading.
[[nodiscard]] const std::vector<std::string>& effort_words();
[[nodiscard]] const std::vector<std::string>& when_words();
[[nodiscard]] const std::vector<std::string>& step_kind_words();
[[nodiscard]] const std::vector<std::string>& pushed_words();
[[nodiscard]] const std::vector<std::string>& level_words();
[[nodiscard]] const std::vector<std::string>& standing_words();
[[nodiscard]] const std::vector<std::string>& material_role_words();

}  // namespace lidlift
