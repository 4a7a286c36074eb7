// Many tried cases taken together: how often the first place was right, what was never tried, and which miss is the worst.
#pragma once

#include "engine/trial.hpp"

#include <span>
#include <string>
#include <vector>

namespace lidlift {

/// A case with its result; both live elsewhere.
struct Tried {
    const WrittenCase* written = nullptr;
    const TrialResult* result = nullptr;
};

/// An expected cause counts as nearly found when it is among so many.
inline constexpr std::size_t nearly_first = 3;

struct Score {
    std::size_t cases = 0;
    std::size_t failed = 0;
    std::size_t asked = 0;             ///< cases that ask which cause comes first; `first` and `among_three` are of these
    std::size_t first = 0;             ///< the first place is expected or acceptable
    std::size_t acceptable = 0;        ///< of them, those whose first place is only acceptable
    std::size_t among_three = 0;       ///< an expected cause is among the first three, or the first place is right
    std::size_t advised_against = 0;   ///< cases in which a step was shown that must never be
    std::size_t cautions_missing = 0;  ///< cases in which a caution was not read out
    std::size_t steps_missing = 0;     ///< cases in which a step was not shown

    void add(const Tried& tried);
};

struct NamedScore {
    std::string name;
    Score score;
};

struct Scores {
    Score all;
    std::vector<NamedScore> by_origin;  ///< `written from`, in the order of its words; only those that occur
    std::vector<NamedScore> by_file;    ///< in the order in which the files were read
};
[[nodiscard]] Scores score(std::span<const Tried> tried);

/// What the cases leave untried.
struct Coverage {
    std::size_t causes = 0;                       ///< in the rule base
    std::vector<std::string> causes_without;      ///< no case expects them
    std::vector<std::string> causes_with_one;     ///< one case does
    std::size_t cautions = 0;                     ///< in the rule base
    std::vector<std::string> cautions_not_heard;  ///< read out in no case
};
[[nodiscard]] Coverage coverage(const RuleBase& rule_base, std::span<const Tried> tried);

/// The cases that did not pass, worst first: what must never be advised, then missing cautions, then a wrong first place (the
/// further down the expected cause stands, the worse), then missing steps.
[[nodiscard]] std::vector<Tried> misses(std::span<const Tried> tried);

}  // namespace lidlift
