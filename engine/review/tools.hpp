// What several families of a review need, made once for a rule base.
#pragma once

#include "engine/review/answering.hpp"
#include "engine/review/few_causes.hpp"
#include "engine/review/strengths.hpp"

namespace lidlift {

struct ReviewTools {
    explicit ReviewTools(const RuleBase& rule_base)
        : base(rule_base), ranker(rule_base), answering(rule_base), few(ranker), strengths(strengths_of(ranker)) {}
    ReviewTools(const ReviewTools&) = delete;
    ReviewTools& operator=(const ReviewTools&) = delete;

    const RuleBase& base;
    Ranker ranker;
    Answering answering;
    FewCauses few;
    std::vector<std::vector<FeatureStrength>> strengths;
};

}  // namespace lidlift
