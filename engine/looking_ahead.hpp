// What each answer to a question would leave of the likely sets of causes, without weighing everything anew.
#pragma once

#include "engine/answers.hpp"
#include "engine/ranking.hpp"

#include <map>
#include <optional>
#include <span>
#include <vector>

namespace lidlift {

/// Sets of causes beyond this share of the chance, or beyond so many, cannot make a question worth asking.
struct LikelySets {
    double share = 0.99;
    std::size_t most = 300;
};

/// Looks ahead from one ranking; refers to what it was made from. Of a hypothetical answer only what it reaches is worked out:
/// the findings, circumstances and vetoes that it changes.
class LookingAhead {
public:
    LookingAhead(const Ranker& ranker, const Told& told, const Ranking& ranking, const LikelySets& likely = {});
    LookingAhead(const LookingAhead&) = delete;
    LookingAhead& operator=(const LookingAhead&) = delete;

    /// The likely sets, likeliest first, their chances adding up to 1 again.
    [[nodiscard]] const std::vector<CauseSet>& sets() const { return sets_; }
    [[nodiscard]] const Ranker::Known& now() const { return now_; }

    /// One answer, and what it would leave.
    struct After {
        double chance = 0;            ///< of the answer; those of all answers add up to 1, unless none is possible
        std::vector<double> chances;  ///< of the sets; add up to 1, or are all 0 where the answer rules out every set
    };
    /// By the positions of the sign's answers. Answers to a several-at-once sign are taken one at a time. Knows of no answer
    /// yet.
    [[nodiscard]] std::vector<After> answers(Handle<Sign> sign);

    /// How many rules, causes and sets were gone through up to now.
    [[nodiscard]] std::size_t work() const { return work_; }

    /// The answer at `position`, as it would be entered.
    [[nodiscard]] static Observation observation(const Sign& sign, std::size_t position);

private:
    /// What one feature shows under each of the sets.
    struct Shown {
        std::vector<double> without;           ///< chance of each value under none of the listed causes
        std::vector<double> with;              ///< in rows of the same length
        std::vector<std::uint32_t> row;        ///< by set; no_row where the feature does not speak of it
        std::vector<std::uint32_t> speaks_of;  ///< the sets that have a row
    };
    static constexpr std::uint32_t no_row = static_cast<std::uint32_t>(-1);
    struct Change;

    [[nodiscard]] Shown work_out(const NoisyOr& feature) const;
    [[nodiscard]] const Shown& shown(std::uint32_t feature);
    [[nodiscard]] double background(Handle<Sign> handle, std::size_t position) const;
    [[nodiscard]] Change change_with(Handle<Sign> sign) const;
    [[nodiscard]] std::vector<double> gains(const Change& change, const Observation& answer);
    [[nodiscard]] std::vector<double> ratios(const Finding& finding);
    [[nodiscard]] std::vector<double> of_group(std::span<const Finding> findings);
    void multiply(const Finding& finding, bool comes, std::vector<double>& gains);
    void multiply_group(int group, std::span<const std::uint32_t> features, std::span<const Finding> after,
                        std::vector<double>& gains);
    [[nodiscard]] bool only_one_of(int group, std::span<const Finding> after) const;
    void multiply_findings(std::span<const std::uint32_t> features, std::span<const Finding> after, std::vector<double>& gains);
    void multiply_cause(std::uint32_t cause, double factor, bool ruled_out, bool certain, std::vector<double>& gains) const;

    const Ranker& ranker_;
    Facts facts_;
    std::optional<Facts> sure_;  ///< only where some answer was not sure
    Ranker::Known now_;
    Conclusions sure_conclusions_;
    std::vector<CauseSet> sets_;
    std::vector<std::vector<std::uint32_t>> sets_with_;  ///< by cause
    std::vector<std::optional<Finding>> found_;          ///< by feature
    std::vector<std::optional<Shown>> shown_;            ///< by feature, as they are asked for
    std::map<int, std::vector<double>> groups_now_;      ///< what was found of a group, by set, as it is asked for
    std::size_t work_ = 0;
};

}  // namespace lidlift
