// What is known of one bed: for each sign the answers that are still possible, and how sure the person was.
#pragma once

#include "engine/condition.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

enum class Sureness { sure, unsure, guess };

/// What was said about one sign.
struct Observation {
    /// yes/no, one of several, bands of a quantity: the answers that may still be true; never empty.
    AnswerSet possible = 0;
    /// Several at once: what is there, and what is surely not; all else is unknown.
    AnswerSet present = 0;
    AnswerSet absent = 0;
    /// Quantity: the number, or the range it lies in, in the sign's unit.
    std::optional<Range> measured;
    Sureness sureness = Sureness::sure;
    std::string from;  ///< where it comes from: "you said: squeeze=streams"
};

/// How `from` begins where it comes from a tank's record, and goes on with what stands there.
inline constexpr std::string_view from_the_record = "the tank's record: ";

/// " (from the tank's record: 41 kg in 120 kg of feed)", or nothing where somebody said it.
[[nodiscard]] std::string as_recorded(const Observation& observation);
/// The same where there are many of them in one sentence: " (record: read on 2026-03-09)".
[[nodiscard]] std::string as_recorded_in_brief(const Observation& observation);

/// Observations by sign. A sign without one is unknown.
class Facts {
public:
    [[nodiscard]] const Observation* find(Handle<Sign> sign) const;
    void set(Handle<Sign> sign, Observation observation);
    void forget(Handle<Sign> sign);
    /// Signs that something is known of, in the order of the rule base.
    [[nodiscard]] std::vector<Handle<Sign>> known() const;
    /// No answer was unsure or a guess.
    [[nodiscard]] bool all_sure() const;

private:
    std::vector<std::optional<Observation>> by_sign_;
};

}  // namespace lidlift
