// What a person types after `lidlift log` -> one entry of a tank's record: "added 3 buckets kitchen waste did turned it".
#pragma once

#include "engine/outcome.hpp"
#include "engine/rule_base.hpp"
#include "engine/vessels.hpp"
#include "engine/yaml_tree.hpp"

#include <cstddef>
#include <span>
#include <string>

namespace lidlift {

inline constexpr std::size_t most_words_of_an_entry = 1'000;

/// The words as keys and values of an entry (rules/TANKS.md section 2), in that section's order, without day, bay and note.
/// Names of signs, steps and materials become ids where they are known; what is not known is left to the record's reader, which
/// says so. Fault: words that make no entry, with what is wanted.
[[nodiscard]] Outcome<YamlNode> entry_from_words(std::span<const std::string> words, const Vessels& vessels,
                                                 const RuleBase& rule_base);

}  // namespace lidlift
