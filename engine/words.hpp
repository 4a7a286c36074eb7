// The plain words a trainer writes and the numbers they stand for (the method's section on words; the same table is printed by
// `lidlift show`).
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

/// How often something is seen: "almost never" 0.025, "sometimes" 0.2, "about half the time" 0.5, "usually" 0.8, "almost
/// always" 0.985; and "practically never" 0.005, which only a background may be. The spacing is that of the frequency grades of
/// Shwe, Middleton, Heckerman et al., Methods Inf. Med. 30 (1991) 241-255 (values from memory).
[[nodiscard]] std::optional<double> frequency(std::string_view word);
[[nodiscard]] const std::vector<std::string>& frequency_words();

/// How common a cause is among beds that people ask about: "very common" 0.2 ... "rare" 0.005 (design choice).
[[nodiscard]] std::optional<double> commonness(std::string_view word);
[[nodiscard]] const std::vector<std::string>& commonness_words();

/// What seeing a thing does to the odds: "slightly" 2, "moderately" 5, "strongly" 10, "very strongly" 10^1.5; with " against"
/// the inverse. Band edges of Jaeschke, Guyatt & Sackett, JAMA 271 (1994) 703-707.
[[nodiscard]] std::optional<double> odds_factor(std::string_view word);
[[nodiscard]] const std::vector<std::string>& odds_words();

/// No link may claim to be seen more often than this.
inline constexpr double highest_chance = 0.985;

/// 10 log10(p / (1 - p)): evidence in decibans (Good 1950; Turing's unit). -inf for 0, +inf for 1.
[[nodiscard]] double decibans(double probability);
[[nodiscard]] double probability(double decibans);

/// A chance kept a hair away from 0 and 1, where its odds would be infinite.
[[nodiscard]] double with_finite_odds(double chance);

/// A chance in words with its range, "likely (55-80 %)"; the scale of ICD 203, lower edge included, and beyond 1-99 %
/// "practically ruled out (under 1 %)", "practically certain (over 99 %)". Words and range always stand together (Wintle et al.
/// 2019, PLOS ONE).
[[nodiscard]] std::string likelihood_words(double chance);

/// How far one line of evidence moves the balance, by |decibans|: barely (< 2), slightly (< 5), moderately (< 9), strongly (<
/// 13), very strongly.
[[nodiscard]] std::string weight_words(double decibans);

}  // namespace lidlift
