// How likely a feature shows which value, under exactly the causes of a set: leaky noisy-OR with inhibitors.
#pragma once

#include "engine/evidence_model.hpp"

#include <span>
#include <vector>

namespace lidlift {

/// One feature's links as factors, so that a set's chance is their product. Refers to the model it was made from.
class NoisyOr {
public:
    NoisyOr(const EvidenceModel& model, const Feature& feature);

    [[nodiscard]] std::size_t value_count() const { return feature_.background.size(); }

    /// Some cause of `set` has a link to the feature; otherwise the feature is as it is anyway.
    [[nodiscard]] bool speaks_of(std::span<const std::uint16_t> set) const;

    /// The causes with a link, each once, rising.
    [[nodiscard]] std::vector<std::uint32_t> causes() const;

    /// Chance that the report names one of `values` when reports are wrong with chance `error`. A wrong report names any of the
    /// other values alike; for two values that makes e + (1 - 2e) P.
    [[nodiscard]] double chance(AnswerSet values, std::span<const std::uint16_t> set, double error) const;

    /// Chance of each value, reports being right. Values that no cause of the set is linked to share what the linked ones
    /// leave, but at least 0.01, in proportion to their background, so that "seen usually" of one value speaks against every
    /// other value alike.
    [[nodiscard]] std::vector<double> all(std::span<const std::uint16_t> set) const;
    /// The same into a place for each value.
    void all(std::span<const std::uint16_t> set, std::span<double> into) const;

    /// Chance that a report names one of `values`, from the chance of each value.
    [[nodiscard]] static double reported(AnswerSet values, std::span<const double> chances, double error);

    struct Factor {
        std::uint32_t cause;
        std::uint32_t value;
        double not_shown = 1;  ///< what is left of the chance that the value does not show
        double held_back = 1;  ///< by how much the cause makes the value rarer
    };
    /// By cause, then value.
    [[nodiscard]] std::span<const Factor> factors() const { return factors_; }
    [[nodiscard]] const Feature& feature() const { return feature_; }
    /// What values that no cause of a set is linked to share at least.
    static constexpr double least_remainder = 0.01;

private:
    struct Shown {
        double chance;
        bool linked;
    };
    [[nodiscard]] Shown shown(std::size_t value, std::span<const std::uint16_t> set) const;

    const EvidenceModel& model_;
    const Feature& feature_;
    std::vector<Factor> factors_;
};

}  // namespace lidlift
