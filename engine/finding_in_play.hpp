// One finding while causes are added to a set and taken away again, the last one first: each costs only what it changes.
#pragma once

#include "engine/noisy_or.hpp"

#include <algorithm>
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
    /// The same with one further cause, which is not added.
    [[nodiscard]] double ratio_with(Links links) const { return offset_ + slope_ * named_with(links); }

private:
    /// How far one value shows; as in NoisyOr::all.
    struct Value {
        double not_shown;
        double held_back = 1;
        bool linked = false;
    };

    /// Of more than two values: what their chances are made of.
    struct Sums {
        double linked = 0;    ///< chance of those that a cause in play is linked to
        double unlinked = 0;  ///< background of the others
        double named_linked = 0;
        double named_unlinked = 0;  ///< of those that the finding names
        int unlinked_count = 0;
    };

    [[nodiscard]] bool two_valued() const { return count_ == 1; }
    // What every set of three asks for stands here, so that it is built into its callers.
    [[nodiscard]] static Value with(Value value, const NoisyOr::Factor& link) {
        return {value.not_shown * link.not_shown, value.held_back * link.held_back, true};
    }
    /// The chance of a value that a cause in play is linked to.
    [[nodiscard]] double shown(const Value& value) const {
        return std::clamp((1 - value.not_shown) * value.held_back, lowest_, highest_);
    }
    /// The chance that what the finding names shows, or that the first of two values does.
    [[nodiscard]] double named_with(Links links) const {
        if (!two_valued()) return named(links.empty() ? sums_[depth_] : sums_with(links));
        Value value = values_[depth_];
        for (const NoisyOr::Factor& link : links) value = with(value, link);
        return shown(value);
    }
    [[nodiscard]] double named(const Sums& sums) const;
    [[nodiscard]] Sums sums_with(Links links) const;
    void count_in(Sums& sums, const Value& value, std::size_t position, int times) const;

    const Feature* feature_;
    Finding finding_;
    double lowest_;
    double highest_;
    std::size_t count_;          ///< of values that are followed: of two only the first
    std::vector<Value> values_;  ///< by depth, then value
    std::array<Sums, most_in_a_set + 1> sums_{};
    std::array<double, most_in_a_set + 1> ratio_{};
    /// The ratio from the chance of what the finding names, or of the first of two values: a report may be wrong.
    double offset_ = 0;
    double slope_ = 0;
    std::size_t depth_ = 0;
};

}  // namespace lidlift
