// What every command needs: the options given everywhere, the rule base they lead to, and the exit codes.
#pragma once

#include "engine/rule_base_image.hpp"
#include "engine/rule_base_reader.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift::cli {

/// Relied upon by others.
enum Exit : int { done = 0, faults_found = 1, unusable_input = 2, cannot_read_or_write = 3 };

struct Options {
    std::vector<std::string> rules;       ///< after the default rule base
    std::vector<std::string> only_rules;  ///< instead of it
    bool json = false;
};

/// What the reader made of the rule files, complaints and all; or, when a file could not be read, the exit code after the
/// reason was printed on standard error.
struct Read {
    std::optional<RuleBaseReading> reading;
    int exit = done;
};
[[nodiscard]] Read read_rules(const Options& options);

/// Either a rule base, or the exit code after the reasons were printed on standard error. With a smaller `extent`, of a rule
/// base that is ready as an image no more is read; what is read from files is always whole.
struct Loaded {
    std::optional<RuleBase> rule_base;
    int exit = done;
};
[[nodiscard]] Loaded load_rule_base(const Options& options, Extent extent = Extent::whole);

/// The same from texts that were read already; `silent` about entries that replace or extend others.
[[nodiscard]] Loaded load_rule_texts(const std::vector<RuleText>& files, bool silent = false);

/// Prints "lidlift: text" on standard error, safe for a terminal.
void print_error(const std::string& text);

/// Prints each of them; true when there are any, and the input thus cannot be used.
bool print_complaints(const std::vector<Complaint>& complaints);

/// Writes to standard output at once; false, after saying so, if that failed.
[[nodiscard]] bool print(const std::string& text);

}  // namespace lidlift::cli
