// What closed calls teach, as a page and as JSON.
#pragma once

#include "engine/learning.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace lidlift::cli {

/// What became of the files.
struct CallsRead {
    std::size_t files = 0;                ///< that could be read
    std::size_t unusable = 0;             ///< with mistakes, said on standard error
    std::size_t other_version = 0;        ///< recorded under another rule base or version
    std::vector<std::string> not_closed;  ///< each with the reason why it teaches nothing
    std::vector<std::string> misfits;     ///< answers that the rule base does not know any more
};

struct LearntPage {
    Learnt learnt;
    CallsRead read;
    std::vector<std::string> would_change;  ///< recorded cases that the proposals would change
};

[[nodiscard]] std::string render_learnt(const RuleBase& rule_base, const LearntPage& page, bool full);
[[nodiscard]] std::string render_learnt_json(const RuleBase& rule_base, const LearntPage& page);

}  // namespace lidlift::cli
