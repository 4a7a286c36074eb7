// What holds for every input, as checks that stop a fuzzer and fail a test.
#pragma once

#include "engine/complaint.hpp"
#include "engine/facts.hpp"
#include "engine/rule_base.hpp"

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift::fuzz {

/// Something did not hold that always must.
struct Broken : std::logic_error {
    using std::logic_error::logic_error;
};

inline void ensure(bool holds, const std::string& what) {
    if (!holds) throw Broken(what);
}

/// Sound UTF-8 without anything that a terminal obeys.
void ensure_harmless(std::string_view shown);

/// Every complaint names `file`, has a place within `text`, says something, and can be shown.
void ensure_placed(const std::vector<Complaint>& complaints, std::string_view text, const std::string& file);

/// A column in a text of one line, from 1; one past its end is where something is missing.
void ensure_column(int column, std::string_view text);

/// Each known sign is one of the rule base, with at least one answer left; typed again, the observation is the same.
void ensure_sound(const Facts& facts, const RuleBase& rule_base);

/// The rule base that is built in.
[[nodiscard]] const RuleBase& default_base();

}  // namespace lidlift::fuzz
