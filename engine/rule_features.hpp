// A rule base in terms of the evidence model: which feature stands for which sign, answer or conclusion, and what was found of
// each. Nothing in it changes after it is made.
#pragma once

#include "engine/chaining.hpp"
#include "engine/evidence_model.hpp"
#include "engine/facts.hpp"
#include "engine/rule_base.hpp"

#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

namespace lidlift {

class RuleFeatures {
public:
    explicit RuleFeatures(const RuleBase& rule_base);

    /// All features with their links, and the priors as they are written, before any scaling.
    [[nodiscard]] const EvidenceModel& model() const { return model_; }

    /// What a feature stands for: a sign (all its answers), one answer of a several-at-once sign, or a conclusion.
    struct Subject {
        std::optional<Handle<Sign>> sign;
        std::optional<std::size_t> answer;
        std::optional<Handle<Conclusion>> conclusion;
    };
    [[nodiscard]] const Subject& subject(std::uint32_t feature) const { return subjects_[feature]; }

    /// The features that stand for `sign`: one for exclusive answers, one for each answer of a several-at-once sign.
    struct SignFeature {
        std::uint32_t feature;
        std::optional<std::size_t> answer;  ///< several at once: which
    };
    [[nodiscard]] const std::vector<SignFeature>& features_of(Handle<Sign> sign) const { return features_of_sign_[sign.index]; }
    [[nodiscard]] std::optional<std::uint32_t> feature_of(Handle<Conclusion> conclusion) const {
        return feature_of_conclusion_[conclusion.index];
    }

    [[nodiscard]] std::vector<Finding> findings(const Facts& facts, const Conclusions& conclusions) const;
    /// Those that an answer to one sign is, and the one that a settled conclusion is.
    void add_findings(Handle<Sign> sign, const Observation& seen, std::vector<Finding>& into) const;
    void add_finding(Handle<Conclusion> conclusion, const Conclusions& conclusions, std::vector<Finding>& into) const;
    /// The chance that a report of this sureness is wrong.
    [[nodiscard]] double error(Sureness sureness) const;

private:
    void add_features();
    void add_feature(Feature feature, const Subject& subject, const std::string& group);
    void add_links();
    void add_link(std::uint32_t cause, const Link& link);

    const RuleBase& rule_base_;
    EvidenceModel model_;
    std::vector<Subject> subjects_;  ///< by feature
    std::vector<std::vector<SignFeature>> features_of_sign_;
    std::vector<std::optional<std::uint32_t>> feature_of_conclusion_;
    std::unordered_map<std::string, int> groups_;  ///< of signs that tell of the same observation, by its name
};

}  // namespace lidlift
