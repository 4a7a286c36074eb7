// "sign=value" and answer files in YAML -> facts.
#pragma once

#include "engine/complaint.hpp"
#include "engine/facts.hpp"
#include "engine/rule_base.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

struct YamlEntry;

/// All that a person told, and in which order.
struct Told {
    Facts facts;
    std::vector<Handle<Sign>> order;      ///< signs in the order in which they were told, each once, "?" included
    std::vector<Handle<Sign>> not_known;  ///< signs answered with "?": asked, but the person does not know
};

/// Adds one answer. `value` is what stands after '=': an answer, several with commas, "not ANSWER", a quantity, a range of it
/// ("28 to 32 °C", "above 30 °C"), a band of it, or "?"; then perhaps ",unsure" or ",guess". Letter case, '-' and spaces inside
/// names do not matter. Returns what is wrong, with the nearest known name, and then leaves `told` as it was.
[[nodiscard]] std::optional<Fault> hear(Told& told, const RuleBase& rule_base, std::string_view sign, std::string_view value,
                                        const std::string& from);

/// Adds one command-line argument "sign=value".
[[nodiscard]] std::optional<Fault> hear_argument(Told& told, const RuleBase& rule_base, std::string_view argument);

/// Adds what a YAML file says: a map with `signs` (sign: value, sign: [answer, answer], or sign: {is: value, sure: unsure}) and
/// perhaps `note`.
void hear_file(Told& told, const RuleBase& rule_base, std::string_view text, const std::string& file, Complaints& complaints);

/// Adds what one entry of such a `signs` map says; wherever such a map stands.
void hear_entry(Told& told, const RuleBase& rule_base, const YamlEntry& entry, Complaints& complaints);

/// What an observation says, in plain words: "water runs out without hard squeezing", "31 °C", "not droppings or burrows".
[[nodiscard]] std::string in_words(const Sign& sign, const Observation& observation);

/// The answer ids or the quantity, as they would be typed after '='.
[[nodiscard]] std::string as_value(const Sign& sign, const Observation& observation);

/// One answer in words: its `means`, or its name.
[[nodiscard]] std::string answer_in_words(const Sign& sign, std::size_t position);

}  // namespace lidlift
