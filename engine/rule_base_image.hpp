// A rule base as bytes that are read back in one pass, without a parser: what a program that starts for one question can
// afford.
//
// Reading the default rules from YAML costs some hundred times what an empty program costs. They do not change between two
// builds, so they are read once, by the build (rules/embed_rules), and the program holds the result as an image. Each value
// stands where the one list of fields (engine/rule_base_fields) names it, so that writing and reading cannot differ:
//
//   * numbers are written seven bits a byte, least first; fractions as the eight bytes of a double; texts with their length;
//   * a list begins with its length, an optional value with 0 or 1, a choice of types with its position;
//   * a handle is a number below the size of its catalogue, and those sizes stand at the beginning;
//   * the names of the rule files, which every place repeats, stand once, at the beginning.
//
// An image begins with a word that names the format and a sum over the rest. One that was cut or changed is refused by its sum.
// Even one whose sum was made to fit is held to its bounds, sizes and depth, so that reading ends and touches nothing else;
// what its values mean together (that a band has an upper end) is believed, since only the reader of rule files can make an
// image.
#pragma once

#include "engine/outcome.hpp"
#include "engine/rule_base.hpp"

#include <string>
#include <string_view>

namespace lidlift {

/// Conditions within conditions. As deep as the grammar lets a trainer write them (condition_grammar), where each parenthesis
/// and each `not` may come to a quorum in a negation.
inline constexpr int deepest_in_image = 200;

/// How much of an image is read. To weigh what was told as sign=value takes neither the phrases in which callers say things nor
/// the places in the rule files: a third of the time, and of the memory, that the whole takes.
enum class Extent { whole, without_phrases_and_places };

[[nodiscard]] std::string to_image(const RuleBase& rule_base);

/// Fault: no image of this version of the format, or a damaged one.
[[nodiscard]] Outcome<RuleBase> from_image(std::string_view image, Extent extent = Extent::whole);

/// The same image with the sum that its bytes have: for tests that damage what the sum protects.
[[nodiscard]] std::string with_true_sum(std::string image);

}  // namespace lidlift
