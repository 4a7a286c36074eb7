// Facts and conclusions -> causes with a chance and a balance sheet.
#pragma once

#include "engine/chaining.hpp"
#include "engine/facts.hpp"
#include "engine/rule_base.hpp"
#include "engine/rule_features.hpp"
#include "engine/sign_reach.hpp"
#include "engine/tied_sets.hpp"
#include "engine/weighing.hpp"

#include <functional>
#include <optional>
#include <span>
#include <string>
#include <variant>
#include <vector>

namespace lidlift {

/// One line of a cause's balance sheet.
struct BalanceLine {
    enum class Kind { how_common, circumstance, sign, shared };
    Kind kind = Kind::sign;
    std::string text;
    double decibans = 0;
    bool discounted = false;           ///< counts only in part: another line tells of the same observation
    std::optional<Handle<Sign>> sign;  ///< what was said, where it is one sign
    Sources sources;                   ///< of this strength
};

struct RankedCause {
    Handle<Cause> cause;
    double chance = 0;
    double prior = 0;                  ///< its chance before anything was told, at this stage
    int answered = 0;                  ///< signs that matter for it and are known
    int of = 0;                        ///< signs that matter for it, directly or through rules
    std::vector<BalanceLine> balance;  ///< adds up to 10 log10(chance / (1 - chance)); empty until it is explained
    /// The likeliest of the likely causes that bring this one about: it is then a consequence, to be mended at its root.
    std::optional<Handle<Cause>> follows_from;
    /// Chance that it is there, be it by itself or as a consequence: of a consequence whose own balance, before its root
    /// explains the signs away, is likely, what that balance says; otherwise `chance`.
    double there = 0;

    /// What was told speaks for it; otherwise it is only as likely as it always is.
    [[nodiscard]] bool raised() const { return chance > 1.02 * prior; }
    /// A report lists it: its chance exceeds its own prior or 5 %.
    [[nodiscard]] bool reported() const { return chance > prior || chance > 0.05; }
};

struct Ranking {
    std::vector<RankedCause> causes;  ///< all that the stage and the vetoes allow; highest chance first, then prior, then id
    double nothing_listed = 0;
    std::vector<Handle<Cause>> together;  ///< the best set, if it has two causes or more and a chance above 25 %
    bool contradictory = false;           ///< the answers rule out every explanation
    Conclusions conclusions;
    Weighed weighed;               ///< its sets are listed where the ranking is not in brief
    std::optional<TiedSets> tied;  ///< in brief: what stands for the list of sets

    [[nodiscard]] const RankedCause* find(Handle<Cause> cause) const;
    /// 0 for one that cannot be.
    [[nodiscard]] double chance_of(Handle<Cause> cause) const;
    /// Chance that at least one of the causes for which `wanted` is set is there.
    [[nodiscard]] double chance_of_any(const std::vector<bool>& wanted) const;
    /// The likeliest sets that together reach `share`, at most `most` of them; likeliest first.
    [[nodiscard]] std::vector<CauseSet> likeliest_sets(double share, std::size_t most) const;
};

/// What is known without the answers that the person was not sure of: what may rule something out or allow a hazardous step.
/// Refers to what it was made from.
class KnownForSure {
public:
    KnownForSure(const RuleBase& rule_base, const Facts& facts, const Conclusions& conclusions);
    KnownForSure(const KnownForSure&) = delete;
    KnownForSure& operator=(const KnownForSure&) = delete;

    [[nodiscard]] const Facts& facts() const { return own_facts_ ? *own_facts_ : all_facts_; }
    [[nodiscard]] const Conclusions& conclusions() const { return own_conclusions_ ? *own_conclusions_ : all_conclusions_; }

private:
    const Facts& all_facts_;
    const Conclusions& all_conclusions_;
    std::optional<Facts> own_facts_;  ///< only where some answer was not sure
    std::optional<Conclusions> own_conclusions_;
};

/// From this chance a cause that brings another about makes it a consequence: the lower edge of "roughly even chance".
inline constexpr double likely_root = 0.45;

/// Finds which causes of a ranking in falling order follow from others, and fills in `follows_from` and `there`. `by_itself`
/// gives the chance of a cause on its own balance, before other causes explain its signs away. Two causes that bring each other
/// about are equals, and neither is made the other's consequence.
void find_roots(const RuleBase& rule_base, Ranking& ranking, const std::function<double(const RankedCause&)>& by_itself);

/// A rule base made ready for weighing: what each feature of the evidence model stands for. Nothing in it changes after it is
/// made, so many threads may use one.
class Ranker {
public:
    explicit Ranker(const RuleBase& rule_base);
    Ranker(const Ranker&) = delete;
    Ranker& operator=(const Ranker&) = delete;

    /// With every set of causes and every balance sheet.
    [[nodiscard]] Ranking rank(const Facts& facts) const;
    /// The same without the list of sets and without balance sheets, in a hundredth of the time.
    [[nodiscard]] Ranking rank_in_brief(const Facts& facts) const;
    /// Likeliest first. Causes that are equally likely stand in the order of their priors and ids, whatever the last digits of
    /// the sums came to.
    void put_in_order(Ranking& ranking) const;
    /// Adds the balance sheets of some causes of a ranking of `facts`.
    void explain(Ranking& ranking, const Facts& facts, const std::function<bool(const RankedCause&)>& wanted) const;

    /// What is known, in terms of the model: priors scaled over the causes that the stage allows, and findings.
    struct Known {
        std::vector<double> prior;
        Situation situation;
        Conclusions conclusions;
    };
    [[nodiscard]] Known know(const Facts& facts) const;
    /// The same with a model of its own that has these priors.
    struct Case {
        EvidenceModel model;
        Situation situation;
        Conclusions conclusions;
    };
    [[nodiscard]] Case prepare(const Facts& facts) const;
    [[nodiscard]] const RuleBase& rule_base() const { return rule_base_; }

    /// All features with their links, and the priors as they are written, before any scaling.
    [[nodiscard]] const EvidenceModel& model() const { return features_.model(); }
    /// Which feature stands for what, and what was found of each.
    [[nodiscard]] const RuleFeatures& features() const { return features_; }
    [[nodiscard]] const NoisyOr& noisy_or(std::uint32_t feature) const { return noisy_ors_[feature]; }
    [[nodiscard]] const SignReaches& reaches() const { return reaches_; }
    /// What is known does to one cause before any sign is weighed. `sure` is what remains of `facts` without the answers that
    /// the person was not sure of, and `facts` itself where there are none.
    struct Standing {
        bool wrong_stage = false;
        bool ruled_out = false;
        bool certain = false;
        double prior_shift = 0;  ///< decibans, of the circumstances
    };
    [[nodiscard]] Standing standing(Handle<Cause> cause, const Facts& facts, const Conclusions& conclusions, const Facts& sure,
                                    const Conclusions& sure_conclusions) const;

private:
    void collect_signs();
    /// What decides a cause's place in a ranking.
    struct OrderKey {
        double chance;  ///< after `order` rounded to what its digits are good for
        double prior;
        std::uint32_t cause;
        std::size_t from;  ///< where it stood
    };
    void order(std::vector<OrderKey>& keys) const;
    void rank_possible(Ranking& ranking, const Known& known, const std::vector<double>& chance, const Facts& facts) const;
    void stand_before_anything_is_known();
    [[nodiscard]] bool at_wrong_stage(Handle<Cause> cause, const Facts& facts) const;
    [[nodiscard]] std::vector<bool> concerned(const Facts& facts, const Conclusions& conclusions) const;
    void add_balance(RankedCause& ranked, const Known& known, const Facts& facts, const Balance& balance) const;
    [[nodiscard]] BalanceLine line(const Finding& finding, Handle<Cause> cause, const Facts& facts,
                                   const Conclusions& conclusions) const;

    const RuleBase& rule_base_;
    SignReaches reaches_;
    RuleFeatures features_;
    std::vector<std::uint32_t> place_by_id_;  ///< by cause: which it is in the order of ids
    std::vector<std::vector<Handle<Sign>>> signs_of_cause_;
    std::vector<std::vector<Handle<Cause>>> causes_of_sign_;  ///< the same from the other end
    /// While nothing is known.
    Conclusions first_conclusions_;
    std::vector<Standing> first_standing_;  ///< by cause
    std::vector<NoisyOr> noisy_ors_;        ///< by feature; they refer to the model of `features_`
};

/// `facts` without the answers that the person was not sure of: what may rule something out or allow a hazardous step.
[[nodiscard]] Facts sure_only(const Facts& facts);

}  // namespace lidlift
