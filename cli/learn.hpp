// `lidlift learn`: what closed calls say of the words in the rule base.
#pragma once

#include "cli/session.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

struct LearnOptions {
    std::vector<std::string> folders;  ///< of call records, or single ones
    bool full = false;
};

/// How many call records one run reads at the most.
inline constexpr std::size_t most_calls = 100'000;

int learn(const Options& options, const LearnOptions& learn_options);

}  // namespace lidlift::cli
