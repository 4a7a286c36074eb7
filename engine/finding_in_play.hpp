// One finding while causes are added to a set and taken away again, the last one first: each costs only what it changes.
#pragma once

#include "engine/noisy_or.hpp"

#include <array>
#include <span>
#include <vector>

namespace lidlift {

class FindingInPlay {
public:
    FindingInPlay(const EvidenceModel& model, const NoisyOr& noisy_or, const Finding& finding);

    /// The links of one cause to the feature, as the noisy-OR has them.
    using Links = std::span<const NoisyOr::Factor>;
    void add(Links links);
    void take_back() { --depth_; }

    /// How much likelier the report is under the causes in play than under none of the listed causes.
    [[nodiscard]] double ratio() const { return ratio_[depth_]; }
    [[nodiscard]] double ratio_before() const { return ratio_[depth_ - 1]; }

    [[nodiscard]] int group() const { return feature_->group; }

private:
    /// How far one value shows; as in NoisyOr::all.
    struct Value {
        double not_shown;
        double held_back = 1;
        bool linked = false;
    };

    [[nodiscard]] double shown(const Value& value) const;
    [[nodiscard]] double chance(std::span<const Value> values) const;

    const Feature* feature_;
    Finding finding_;
    double lowest_;
    double highest_;
    std::size_t count_;          ///< of values that are followed: of two only the first
    std::vector<Value> values_;  ///< by depth, then value
    std::array<double, most_in_a_set + 1> ratio_{};
    double none_ = 1;  ///< the chance under none of the listed causes
    std::size_t depth_ = 0;
};

}  // namespace lidlift
