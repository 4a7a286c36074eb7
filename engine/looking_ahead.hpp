// What each answer to a question would leave of the likely sets of causes, without weighing everything anew.
#pragma once

#include "engine/answers.hpp"
#include "engine/noisy_or.hpp"
#include "engine/ranking.hpp"

#include <optional>
#include <span>
#include <vector>

namespace lidlift {

/// Sets of causes beyond this share of the chance, or beyond so many, cannot make a question worth asking.
struct LikelySets {
    double share = 0.99;
    std::size_t most = 300;
};

/// Looks ahead from one ranking; refers to what it was made from. What is known already is prepared once, and of a hypothetical
/// answer only the findings, circumstances and vetoes that it changes are weighed.
class LookingAhead {
public:
    LookingAhead(const Ranker& ranker, const Told& told, const Ranking& ranking, const LikelySets& likely = {});
    LookingAhead(const LookingAhead&) = delete;
    LookingAhead& operator=(const LookingAhead&) = delete;

    /// The likely sets, likeliest first, their chances adding up to 1 again.
    [[nodiscard]] const std::vector<CauseSet>& sets() const { return sets_; }
    [[nodiscard]] const Ranker::Case& now() const { return now_; }

    /// One answer, and what it would leave.
    struct After {
        double chance = 0;            ///< of the answer; those of all answers add up to 1, unless none is possible
        std::vector<double> chances;  ///< of the sets; add up to 1, or are all 0 where the answer rules out every set
    };
    /// By the positions of the sign's answers. Answers to a several-at-once sign are taken one at a time. Knows of no answer
    /// yet.
    [[nodiscard]] std::vector<After> answers(Handle<Sign> sign) const;

    /// The answer at `position`, as it would be entered.
    [[nodiscard]] static Observation observation(const Sign& sign, std::size_t position);

private:
    [[nodiscard]] double background(Handle<Sign> handle, std::size_t position) const;
    [[nodiscard]] std::vector<double> gains(const Facts& facts, const Facts& sure) const;
    [[nodiscard]] std::vector<double> gains_of_another_stage(const Facts& facts) const;
    void add_changed_findings(const std::vector<Finding>& findings, std::vector<double>& gains) const;
    [[nodiscard]] double weight(const Finding& finding, std::span<const std::uint16_t> set) const;
    [[nodiscard]] double weight_of_group(std::span<const Finding> findings, std::span<const std::uint16_t> set) const;

    const Ranker& ranker_;
    const Told& told_;
    Ranker::Case now_;
    Facts sure_;
    std::vector<CauseSet> sets_;
    std::vector<NoisyOr> features_;
    std::vector<std::optional<Finding>> found_;  ///< by feature
};

}  // namespace lidlift
