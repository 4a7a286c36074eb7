#include "engine/ranking.hpp"

#include "engine/answers.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <tuple>
#include <utility>

namespace lidlift {
namespace {

/// A set of two causes or more that is likelier than this is what stands together.
constexpr double likely_together = 0.25;

bool brings_about(const RuleBase& base, Handle<Cause> root, Handle<Cause> cause) {
    return std::ranges::find(base.causes[root].brings_about, cause) != base.causes[root].brings_about.end();
}

}  // namespace

void find_roots(const RuleBase& base, Ranking& ranking, const std::function<double(const RankedCause&)>& by_itself) {
    std::vector<Handle<Cause>> roots;
    for (const RankedCause& ranked : ranking.causes)
        if (ranked.chance >= likely_root && ranked.raised()) roots.push_back(ranked.cause);
    for (RankedCause& ranked : ranking.causes) {
        ranked.there = ranked.chance;
        for (const auto root : roots) {
            if (!brings_about(base, root, ranked.cause) || brings_about(base, ranked.cause, root)) continue;
            ranked.follows_from = root;
            if (const double alone = by_itself(ranked); alone >= likely_root) ranked.there = std::max(ranked.chance, alone);
            break;  // they stand in falling order of chance
        }
    }
}

Facts sure_only(const Facts& facts) {
    Facts sure = facts;
    for (const auto sign : facts.known())
        if (facts.find(sign)->sureness != Sureness::sure) sure.forget(sign);
    return sure;
}

const RankedCause* Ranking::find(Handle<Cause> cause) const {
    const auto found = std::ranges::find(causes, cause, &RankedCause::cause);
    return found == causes.end() ? nullptr : &*found;
}

double Ranking::chance_of(Handle<Cause> cause) const {
    const RankedCause* ranked = find(cause);
    return ranked ? ranked->chance : 0;
}

double Ranking::chance_of_any(const std::vector<bool>& wanted) const {
    if (tied) return tied->chance_of_any(wanted);
    double chance = 0;
    for (const CauseSet& set : weighed.sets)
        if (std::ranges::any_of(set.causes(), [&](auto cause) { return wanted[cause]; })) chance += set.chance;
    return chance;
}

std::vector<CauseSet> Ranking::likeliest_sets(double share, std::size_t most) const {
    if (tied) return tied->likeliest(share, most);
    std::vector<CauseSet> sets = weighed.sets;
    const auto middle = sets.begin() + static_cast<std::ptrdiff_t>(std::min(sets.size(), most));
    std::partial_sort(sets.begin(), middle, sets.end(), likelier);
    double sum = 0;
    std::size_t kept = 0;
    while (kept < sets.size() && kept < most && sum < share) sum += sets[kept++].chance;
    sets.resize(kept);
    return sets;
}

Ranker::Ranker(const RuleBase& rule_base) : rule_base_(rule_base), reaches_(rule_base), features_(rule_base) {
    std::vector<std::uint32_t> by_id(rule_base.causes.size());
    std::iota(by_id.begin(), by_id.end(), 0U);
    std::ranges::sort(by_id, {}, [&](std::uint32_t i) -> const std::string& { return rule_base.causes[Handle<Cause>{i}].id; });
    place_by_id_.resize(by_id.size());
    for (std::uint32_t place = 0; place < by_id.size(); ++place) place_by_id_[by_id[place]] = place;
    collect_signs();
    stand_before_anything_is_known();
    for (const Feature& feature : model().features) noisy_ors_.emplace_back(model(), feature);
}

void Ranker::collect_signs() {
    const Facts nothing;
    const Conclusions conclusions = chain(rule_base_, nothing);
    // With nothing known, the signs that could settle a condition are all that it mentions, through rules as well.
    const auto mentions_of = [&](const Condition& condition) { return undecided(condition, nothing, conclusions.truth); };
    causes_of_sign_.resize(rule_base_.signs.size());
    std::vector<Mentions> of_rule;
    of_rule.reserve(rule_base_.rules.size());
    for (const Rule& rule : rule_base_.rules) of_rule.push_back(mentions_of(rule.when));
    // By sign and by conclusion: the last cause for which it was met, so that it is followed once for each cause.
    constexpr std::uint32_t no_cause = std::numeric_limits<std::uint32_t>::max();
    std::vector<std::uint32_t> sign_met(rule_base_.signs.size(), no_cause);
    std::vector<std::uint32_t> conclusion_met(rule_base_.conclusions.size(), no_cause);
    for (std::uint32_t i = 0; i < rule_base_.causes.size(); ++i) {
        const Cause& cause = rule_base_.causes[Handle<Cause>{i}];
        std::vector<Handle<Sign>> signs;
        std::vector<Handle<Conclusion>> open;
        const auto add = [&](const Mentions& mentions) {
            for (const auto sign : mentions.signs)
                if (std::exchange(sign_met[sign.index], i) != i) signs.push_back(sign);
            for (const auto conclusion : mentions.conclusions)
                if (std::exchange(conclusion_met[conclusion.index], i) != i) open.push_back(conclusion);
        };
        for (const Link& link : cause.links)
            std::visit([&](const auto& when) { add(mentions_of(Condition{when})); }, link.when);
        for (const Circumstance& circumstance : cause.made_likelier_by) add(mentions_of(circumstance.when));
        while (!open.empty()) {
            const Handle<Conclusion> next = open.back();
            open.pop_back();
            for (const auto rule : rule_base_.rules_for[next.index]) add(of_rule[rule.index]);
        }
        std::ranges::sort(signs);
        for (const auto sign : signs) causes_of_sign_[sign.index].push_back({i});
        signs_of_cause_.push_back(std::move(signs));
    }
}

void Ranker::stand_before_anything_is_known() {
    const Facts nothing;
    first_conclusions_ = chain(rule_base_, nothing);
    for (std::uint32_t i = 0; i < rule_base_.causes.size(); ++i)
        first_standing_.push_back(standing({i}, nothing, first_conclusions_, nothing, first_conclusions_));
}

Ranker::Standing Ranker::standing(Handle<Cause> handle, const Facts& facts, const Conclusions& conclusions, const Facts& sure,
                                  const Conclusions& sure_conclusions) const {
    const Cause& cause = rule_base_.causes[handle];
    const auto holds = [&](const std::optional<Condition>& when) {
        return when && evaluate(*when, sure, sure_conclusions.truth) == Truth::yes;
    };
    Standing result;
    result.wrong_stage = at_wrong_stage(handle, facts);
    result.ruled_out = result.wrong_stage || holds(cause.cannot_be_when);
    result.certain = holds(cause.must_be_when);
    for (const Circumstance& circumstance : cause.made_likelier_by)
        if (evaluate(circumstance.when, facts, conclusions.truth) == Truth::yes) {
            // An unsure circumstance counts for what is left of it when it may be wrong: the factor is mixed with 1.
            const bool all_sure = &facts == &sure;
            const double wrong =
                features_.error(all_sure ? Sureness::sure : sureness_of(circumstance.when, facts, conclusions));
            const double factor = std::pow(10.0, circumstance.weight / 10);
            result.prior_shift += 10 * std::log10((1 - wrong) * factor + wrong);
        }
    return result;
}

bool Ranker::at_wrong_stage(Handle<Cause> cause, const Facts& facts) const {
    const Observation* stage = rule_base_.stage ? facts.find(*rule_base_.stage) : nullptr;
    return stage && stage->sureness != Sureness::guess && (stage->possible & rule_base_.causes[cause].stages) == 0;
}

/// By cause: has it a circumstance or a veto that what is known may have changed?
std::vector<bool> Ranker::concerned(const Facts& facts, const Conclusions& conclusions) const {
    std::vector<bool> result(rule_base_.causes.size(), false);
    const auto mark = [&](const std::vector<Handle<Cause>>& causes) {
        for (const auto cause : causes) result[cause.index] = true;
    };
    for (const auto sign : facts.known()) mark(reaches_.causes_mentioning(sign));
    for (std::uint32_t i = 0; i < conclusions.truth.size(); ++i)
        if (conclusions.truth[i] != first_conclusions_.truth[i] || conclusions.sureness[i] != first_conclusions_.sureness[i])
            mark(reaches_.causes_mentioning(Handle<Conclusion>{i}));
    return result;
}

KnownForSure::KnownForSure(const RuleBase& rule_base, const Facts& facts, const Conclusions& conclusions)
    : all_facts_(facts), all_conclusions_(conclusions) {
    if (facts.all_sure()) return;
    own_facts_ = sure_only(facts);
    own_conclusions_ = chain(rule_base, *own_facts_);
}

Ranker::Known Ranker::know(const Facts& facts) const {
    Known known{model().prior, {}, chain(rule_base_, facts)};
    const KnownForSure sure(rule_base_, facts, known.conclusions);

    Situation& situation = known.situation;
    situation.findings = features_.findings(facts, known.conclusions);
    const std::size_t count = rule_base_.causes.size();
    situation.ruled_out.assign(count, false);
    situation.certain.assign(count, false);
    situation.prior_shift.assign(count, 0);
    std::vector<double> priors;
    std::vector<std::uint32_t> at_this_stage;
    priors.reserve(count);
    at_this_stage.reserve(count);
    // What was answered surely is known too, so that nothing is concerned by it alone.
    const std::vector<bool> may_differ = concerned(facts, known.conclusions);
    for (std::uint32_t i = 0; i < count; ++i) {
        Standing cause = first_standing_[i];
        if (may_differ[i]) {
            cause = standing({i}, facts, known.conclusions, sure.facts(), sure.conclusions());
        } else if (at_wrong_stage({i}, facts)) {
            cause.wrong_stage = cause.ruled_out = true;
        }
        if (!cause.wrong_stage) {
            at_this_stage.push_back(i);
            priors.push_back(model().prior[i]);
        }
        situation.ruled_out[i] = cause.ruled_out;
        situation.certain[i] = cause.certain;
        situation.prior_shift[i] = cause.prior_shift;
    }
    // Only ever scaled down: where a stage leaves few causes, none of them is likelier for it.
    const double expected = rule_base_.weighing.expected_causes.value_or(0);
    if (expected > 0 && std::accumulate(priors.begin(), priors.end(), 0.0) > expected) {
        const auto scaled = scaled_priors(priors, expected);
        for (std::size_t i = 0; i < at_this_stage.size(); ++i) known.prior[at_this_stage[i]] = scaled[i];
    }
    return known;
}

Ranker::Case Ranker::prepare(const Facts& facts) const {
    Known known = know(facts);
    Case prepared{features_.model(), std::move(known.situation), std::move(known.conclusions)};
    prepared.model.prior = std::move(known.prior);
    return prepared;
}

BalanceLine Ranker::line(const Finding& finding, Handle<Cause> cause, const Facts& facts,
                         const Conclusions& conclusions) const {
    const RuleFeatures::Subject& subject = features_.subject(finding.feature);
    BalanceLine result;
    if (subject.conclusion) {
        const Conclusion& conclusion = rule_base_.conclusions[*subject.conclusion];
        const auto rule = conclusions.because[subject.conclusion->index];
        if (finding.values != answer_set(0))
            result.text = "not so: " + conclusion.means;
        else
            result.text =
                conclusion.means +
                (rule ? " (" + settled_in_words(rule_base_.rules[*rule].when, rule_base_, facts, conclusions) + ")" : "");
    } else {
        const Sign& sign = rule_base_.signs[*subject.sign];
        const Observation& seen = *facts.find(*subject.sign);
        result.sign = subject.sign;
        if (subject.answer)
            result.text =
                sign.name + (finding.values == answer_set(0) ? ": " : ": not so: ") + answer_in_words(sign, *subject.answer);
        else
            result.text = sign.name + ": " + in_words(sign, seen);
        result.text += as_recorded(seen);
    }
    const Cause& of = rule_base_.causes[cause];
    for (const Link& link : of.links) {
        const auto* says = std::get_if<Says>(&link.when);
        const auto* concluded = std::get_if<Concluded>(&link.when);
        const bool same =
            (says && subject.sign == says->sign && (!subject.answer || answer_set(*subject.answer) == says->answers)) ||
            (concluded && subject.conclusion == concluded->conclusion);
        if (same) result.sources = link.sources.empty() ? of.sources : link.sources;
    }
    return result;
}

void Ranker::add_balance(RankedCause& ranked, const Known& known, const Facts& facts, const Balance& balance) const {
    const Handle<Cause> handle = ranked.cause;
    const Cause& cause = rule_base_.causes[handle];
    std::vector<BalanceLine> lines;
    lines.push_back({BalanceLine::Kind::how_common, "how common it is", decibans(ranked.prior), false, {}, {}});
    double sum = lines.front().decibans;
    for (const Circumstance& circumstance : cause.made_likelier_by) {
        if (evaluate(circumstance.when, facts, known.conclusions.truth) != Truth::yes) continue;
        const double wrong = features_.error(sureness_of(circumstance.when, facts, known.conclusions));
        const double weight = 10 * std::log10((1 - wrong) * std::pow(10.0, circumstance.weight / 10) + wrong);
        lines.push_back({BalanceLine::Kind::circumstance,
                         settled_in_words(circumstance.when, rule_base_, facts, known.conclusions),
                         weight,
                         false,
                         {},
                         circumstance.sources.empty() ? cause.sources : circumstance.sources});
        sum += weight;
    }
    for (std::size_t i = 0; i < known.situation.findings.size(); ++i) {
        const Finding& finding = known.situation.findings[i];
        const auto& links = model().features[finding.feature].links;
        if (std::ranges::find(links, handle.index, &Feature::Link::cause) == links.end()) continue;
        BalanceLine next = line(finding, handle, facts, known.conclusions);
        next.decibans = balance.lines[i];
        next.discounted = balance.discounted[i];
        sum += next.decibans;
        lines.push_back(std::move(next));
    }
    std::stable_sort(lines.begin() + 1, lines.end(),
                     [](const BalanceLine& a, const BalanceLine& b) { return std::abs(a.decibans) > std::abs(b.decibans); });
    const double shared = decibans(ranked.chance) - sum;
    std::string text = shared < 0 ? "other causes explain this as well" : "other causes fit these answers less well";
    if (known.situation.certain[handle.index])
        text = "this settles it: " + settled_in_words(*cause.must_be_when, rule_base_, facts, known.conclusions);
    lines.push_back({BalanceLine::Kind::shared, std::move(text), shared, false, {}, {}});
    ranked.balance = std::move(lines);
}

void Ranker::order(std::vector<OrderKey>& keys) const {
    for (OrderKey& key : keys) key.chance = std::round(key.chance * 1e13);
    std::ranges::sort(keys, [&](const OrderKey& a, const OrderKey& b) {
        if (a.chance != b.chance) return a.chance > b.chance;
        if (a.prior != b.prior) return a.prior > b.prior;
        return place_by_id_[a.cause] < place_by_id_[b.cause];
    });
}

/// All that may be, likeliest first, without balance sheets.
void Ranker::rank_possible(Ranking& ranking, const Known& known, const std::vector<double>& chance, const Facts& facts) const {
    std::vector<int> answered(rule_base_.causes.size(), 0);
    for (const auto sign : facts.known())
        for (const auto cause : causes_of_sign_[sign.index]) ++answered[cause.index];
    std::vector<OrderKey> keys;
    keys.reserve(rule_base_.causes.size());
    for (std::uint32_t i = 0; i < rule_base_.causes.size(); ++i)
        if (!known.situation.ruled_out[i]) keys.push_back({with_finite_odds(chance[i]), known.prior[i], i, keys.size()});
    order(keys);
    ranking.causes.reserve(keys.size());
    for (std::size_t i = 0; i < keys.size(); ++i) {
        const std::uint32_t cause = keys[i].cause;
        const bool equal = i > 0 && keys[i].chance == keys[i - 1].chance;
        const double own = equal ? ranking.causes.back().chance : with_finite_odds(chance[cause]);
        RankedCause& ranked = ranking.causes.emplace_back();
        ranked.cause = {cause};
        ranked.chance = own;
        ranked.prior = known.prior[cause];
        ranked.of = static_cast<int>(signs_of_cause_[cause].size());
        ranked.answered = answered[cause];
    }
}

void Ranker::put_in_order(Ranking& ranking) const {
    std::vector<RankedCause>& causes = ranking.causes;
    std::vector<OrderKey> keys;
    for (const RankedCause& ranked : causes) keys.push_back({ranked.chance, ranked.prior, ranked.cause.index, keys.size()});
    order(keys);
    std::vector<RankedCause> sorted;
    sorted.reserve(causes.size());
    for (std::size_t i = 0; i < keys.size(); ++i) {
        sorted.push_back(std::move(causes[keys[i].from]));
        if (i > 0 && keys[i].chance == keys[i - 1].chance) sorted[i].chance = sorted[i - 1].chance;
    }
    causes = std::move(sorted);
}

Ranking Ranker::rank(const Facts& facts) const {
    const Known known = know(facts);
    EvidenceModel model = features_.model();
    model.prior = known.prior;
    Ranking ranking;
    ranking.weighed = weigh(model, known.situation);
    ranking.conclusions = known.conclusions;
    ranking.nothing_listed = ranking.weighed.nothing_listed;
    ranking.contradictory = ranking.weighed.sets.empty();
    if (ranking.contradictory) return ranking;
    rank_possible(ranking, known, ranking.weighed.chance, facts);
    std::vector<std::uint32_t> possible;
    for (const RankedCause& ranked : ranking.causes) possible.push_back(ranked.cause.index);
    std::size_t next = 0;
    for_each_balance(model, known.situation, possible, [&](std::uint32_t, const Balance& balance) {
        add_balance(ranking.causes[next++], known, facts, balance);
    });
    // All lines but the last, which says what is shared with other causes.
    find_roots(rule_base_, ranking,
               [](const RankedCause& ranked) { return probability(decibans(ranked.chance) - ranked.balance.back().decibans); });
    const auto best = std::ranges::max_element(ranking.weighed.sets, {}, &CauseSet::chance);
    if (best->size >= 2 && best->chance > likely_together)
        for (const auto cause : best->causes()) ranking.together.push_back({cause});
    return ranking;
}

Ranking Ranker::rank_in_brief(const Facts& facts) const {
    Known known = know(facts);
    Ranking ranking;
    const TiedSets& tied = ranking.tied.emplace(model(), noisy_ors_, known.prior, known.situation);
    ranking.nothing_listed = tied.nothing_listed();
    ranking.contradictory = tied.none_possible();
    if (!ranking.contradictory) {
        rank_possible(ranking, known, tied.chance(), facts);
        find_roots(rule_base_, ranking, [&](const RankedCause& ranked) {
            return probability(10 * std::log10(tied.odds_alone(ranked.cause.index)));
        });
        const auto likely = tied.sets_from(likely_together);
        if (!likely.empty() && likely.front().size >= 2 && likely.front().chance > likely_together)
            for (const auto cause : likely.front().causes()) ranking.together.push_back({cause});
    }
    ranking.conclusions = std::move(known.conclusions);
    return ranking;
}

void Ranker::explain(Ranking& ranking, const Facts& facts, const std::function<bool(const RankedCause&)>& wanted) const {
    const Known known = know(facts);
    std::vector<RankedCause*> open;
    std::vector<std::uint32_t> causes;
    for (RankedCause& ranked : ranking.causes)
        if (ranked.balance.empty() && wanted(ranked)) {
            open.push_back(&ranked);
            causes.push_back(ranked.cause.index);
        }
    std::size_t next = 0;
    for_each_balance(model(), known.situation, causes,
                     [&](std::uint32_t, const Balance& balance) { add_balance(*open[next++], known, facts, balance); });
}

}  // namespace lidlift
