// The numbers that are weighed: causes with priors, features with backgrounds and links, and what was found. No words, no
// files.
#pragma once

#include "engine/condition.hpp"

#include <cstdint>
#include <utility>
#include <vector>

namespace lidlift {

inline constexpr int most_in_a_set = 12;
/// Of more causes than this only the likeliest by themselves are combined into sets; the others are weighed alone. 120 causes
/// make 288,101 sets of up to three; without a bound a rule base of thousands would fill the memory.
inline constexpr std::size_t most_combined = 120;

/// One observable thing with two or more exclusive values. Two values are a plain yes (0) or no (1); links then speak of value
/// 0 only.
struct Feature {
    struct Link {
        std::uint32_t cause = 0;
        std::uint32_t value = 0;
        double chance = 0;  ///< that the value shows when `cause` is the only listed cause; in (0, 1)
    };
    std::vector<double> background;  ///< chance of each value when none of the listed causes is there; in (0, 1), adds up to 1
    std::vector<Link> links;         ///< at most one for each cause and value
    int group = -1;                  ///< same-observation group, -1: none
};

struct EvidenceModel {
    std::vector<double> prior;  ///< chance of each cause before any finding, in (0, 1)
    std::vector<Feature> features;
    std::vector<std::pair<std::uint32_t, std::uint32_t>> never_together;
    std::vector<std::uint32_t> alone;      ///< causes that never stand beside another
    double same_observation_counts = 0.3;  ///< share by which each further sign of a group counts
    double shrink = 1;                     ///< factor on all evidence
    int largest_set = 3;                   ///< 0 to most_in_a_set
    double lowest = 0.005;                 ///< clamp of the chance of a value under a set of causes
    double highest = 0.995;
};

/// `feature` was found to have one of `values`; `error` is the chance that such a report is wrong (0 to 0.5).
struct Finding {
    std::uint32_t feature = 0;
    AnswerSet values = 1;
    double error = 0;
};

struct Situation {
    std::vector<Finding> findings;    ///< at most one for each feature; their order does not matter
    std::vector<double> prior_shift;  ///< decibans added to each cause's prior; empty: none
    std::vector<bool> ruled_out;      ///< causes that cannot be; empty: none
    std::vector<bool> certain;        ///< causes that must be; empty: none
};

}  // namespace lidlift
