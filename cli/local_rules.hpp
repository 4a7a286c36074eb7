// Whose word counts for more than ours; at the end of every page of advice.
#pragma once

namespace lidlift::cli {

inline constexpr const char* local_rules_first =
    "Local rules, and the people licensed for gas, wiring, pests and health, come before anything said here.";

}  // namespace lidlift::cli
