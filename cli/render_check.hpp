// What a check found -> a page for people, or JSON.
#pragma once

#include "engine/review/finding.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace lidlift::cli {

struct Checked {
    std::string name;  ///< of the rule base
    std::string version;
    bool readable = true;  ///< false: the findings are the reader's complaints, and nothing else was looked at
    std::vector<ReviewFinding> findings;
};

struct Counts {
    std::size_t faults = 0;
    std::size_t advice = 0;    ///< not answered
    std::size_t answered = 0;  ///< advice that the rule base answers
};
[[nodiscard]] Counts count(const std::vector<ReviewFinding>& findings);

/// Of one kind so many are written out unless all are asked for.
inline constexpr std::size_t most_of_one_kind = 20;

[[nodiscard]] std::string render_check_text(const Checked& checked, bool full);

/// One object, ASCII, ending in a line feed. Keys are relied upon: more may be added, none renamed.
[[nodiscard]] std::string render_check_json(const Checked& checked);

/// "squeeze=stream bed_temperature=\"31 °C\"": what can be put after `lidlift why` in a shell.
[[nodiscard]] std::string witness_words(const ReviewFinding& finding);

}  // namespace lidlift::cli
