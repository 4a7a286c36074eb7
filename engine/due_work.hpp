// What is due in the bays of one tank, today and in the next days: by their stage, by what was last done, read and seen there,
// and by the advice on them. Each with its reason and where the rule comes from.
#pragma once

#include "engine/diagnosis.hpp"
#include "engine/tank_state.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace lidlift {

/// In the order in which a caretaker takes them.
enum class Pressing { overdue, today, this_week };

struct DueWork {
    Pressing pressing = Pressing::this_week;
    std::size_t bay = 0;                    ///< position in the record's bays
    std::string say;                        ///< "turn the heap, the outside to the middle"
    std::string because;                    ///< "last turned on 2026-06-11"
    std::string check_first;                ///< what to make sure of before, where nobody wrote down whether it is safe
    Day from;                               ///< the first day on which it may be done
    Day until;                              ///< the last day on which it is in time
    bool work = true;                       ///< false: something to know or to leave alone, not to do
    std::optional<Handle<Step>> step;       ///< of the rule base
    std::vector<Handle<Caution>> cautions;  ///< to be read first: the step's, and those that the words of `say` call for
    std::vector<std::string> sources;       ///< ids of the rule base, or a source in words
};

/// "This week" is today and so many days after it.
inline constexpr int days_ahead = 7;

/// The most pressing first; of equals by bay, and what has to be done sooner. `diagnoses` is by bay, and null where there is
/// none. A feeding instruction of the advice takes the place of the ration; a step that must not be taken, or that the advice
/// leaves out because of a clash, is no work that is due; and in an emergency nothing is.
[[nodiscard]] std::vector<DueWork> due_work(const TankRecord& record, const TankState& state, const RuleBase& rule_base,
                                            std::span<const Diagnosis* const> diagnoses);

}  // namespace lidlift
