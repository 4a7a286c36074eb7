#include "cli/render_learnt.hpp"

#include "cli/json_parts.hpp"
#include "cli/page.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace lidlift::cli {
namespace {

using Json = nlohmann::ordered_json;

/// So many lines of a kind are shown without --full.
constexpr std::size_t most_shown = 10;

std::string in_hundred(double share) { return fmt::format("{:.0f} in 100", 100 * share); }

std::string between(const Interval& interval) {
    return fmt::format("{:.0f} to {:.0f} in 100", 100 * interval.low, 100 * interval.high);
}

std::string calls(std::size_t count) { return fmt::format("{} {}", count, count == 1 ? "call" : "calls"); }

class LearntText {
public:
    LearntText(const RuleBase& base, const LearntPage& page, bool full)
        : base_(base), learnt_(page.learnt), shown_(page), full_(full) {}

    std::string make() {
        what_was_counted();
        if (learnt_.counted > 0) {
            how_often_right();
            what_came_true();
            proposals();
            not_enough();
        }
        left_out();
        return page_.take();
    }

private:
    void what_was_counted() {
        page_.heading("WHAT WAS COUNTED");
        page_.paragraph("", fmt::format("{} closed {} known outcome; {} counted, and {} left out because the cause was only "
                                        "guessed. In {} it was none of the listed causes.",
                                        learnt_.closed, learnt_.closed == 1 ? "call with a" : "calls with a", learnt_.counted,
                                        learnt_.guesses, calls(learnt_.none_listed)));
        if (shown_.read.other_version > 0)
            page_.paragraph("",
                            fmt::format("{} recorded under another rule base or version than this one; {} stated chances "
                                        "count as they were.",
                                        calls(shown_.read.other_version) + (shown_.read.other_version == 1 ? " was" : " were"),
                                        shown_.read.other_version == 1 ? "its" : "their"));
        if (learnt_.counted == 0)
            page_.paragraph("",
                            "Nothing can be learnt yet. Close a call with lidlift ask --record FILE --again, and say what it "
                            "turned out to be.");
    }

    void how_often_right() {
        page_.heading("HOW OFTEN THE FIRST CAUSE WAS RIGHT");
        const auto line = [&](const char* what, std::size_t hits) {
            const auto count = learnt_.with_cause;
            page_.paragraph("  ", fmt::format("{}: {} of {}{}", what, hits, count,
                                              count > 0 ? ", so in the long run " + between(wilson(hits, count)) : ""));
        };
        line("It stood first", learnt_.first);
        line("It was among the first three", learnt_.among_three);
        if (learnt_.with_cause > 0)
            page_.paragraph("  ", fmt::format("On average it stood in place {:.1f}.", learnt_.mean_rank));
    }

    void what_came_true() {
        page_.heading("HOW OFTEN EACH LIKELIHOOD CAME TRUE");
        for (const WordCameTrue& word : learnt_.words)
            page_.paragraph(
                "  ", fmt::format("{}: said {} {}, right {} {} - {}; by so few it may be anything from {}", word.words,
                                  word.bin.count, word.bin.count == 1 ? "time" : "times", word.bin.came_true,
                                  word.bin.came_true == 1 ? "time" : "times",
                                  in_hundred(static_cast<double>(word.bin.came_true) / static_cast<double>(word.bin.count)),
                                  between(word.interval)));
        const Brier& brier = learnt_.brier;
        page_.paragraph("  ",
                        fmt::format("Brier score of {} stated chances: {:.3f} (0 is perfect; {:.3f} is what always saying "
                                    "the average would get). Words not kept: {:.3f}; telling true from false: {:.3f}.",
                                    learnt_.forecasts, brier.score, brier.uncertainty, brier.reliability, brier.resolution));
        if (learnt_.slope)
            page_.paragraph("  ", fmt::format("The strengths as a whole: {} (slope {:.2f}, shift {:+.2f}).",
                                              std::abs(learnt_.slope->slope - 1) < 0.1 ? "about right"
                                              : learnt_.slope->slope < 1               ? "too sure of themselves"
                                                                                       : "too timid",
                                              learnt_.slope->slope, learnt_.slope->shift));
        else
            page_.paragraph("  ",
                            fmt::format("Whether the strengths as a whole are too bold or too timid takes {} counted calls; "
                                        "there are {}.",
                                        least_calls_for_the_slope, learnt_.counted));
    }

    [[nodiscard]] std::string name_of(const LinkCount& count) const {
        const Cause& cause = base_.causes[count.cause];
        return cause.id + ": " + cause.links[count.link].when_text;
    }

    void proposals() {
        page_.heading("WORDS THAT THE CALLS SPEAK AGAINST");
        std::size_t proposed = 0;
        for (const LinkCount& count : learnt_.links) {
            if (count.proposed.empty()) continue;
            ++proposed;
            const Link& link = base_.causes[count.cause].links[count.link];
            page_.paragraph("  - ", fmt::format("{} - \"{}\" says {}; it was seen in {} of {} ({}). Consider \"{}\". [{}]",
                                                name_of(count), link.words, in_hundred(count.chance_now), count.there_seen,
                                                count.there, between(count.interval), count.proposed, to_text(link.place)));
            if (count.without > 0)
                page_.paragraph("    ",
                                fmt::format("Without such a cause it was seen in {} of {}; seeing it multiplies the odds by "
                                            "{:.1f} ({:.1f} to {:.1f}).",
                                            count.without_seen, count.without, count.ratios.seen.ratio,
                                            count.ratios.seen.interval.low, count.ratios.seen.interval.high));
        }
        for (const CauseCount& count : learnt_.causes) {
            if (count.proposed.empty()) continue;
            ++proposed;
            const Cause& cause = base_.causes[count.cause];
            page_.paragraph("  - ", fmt::format("{} - \"{}\"; it was the cause in {} of {} ({}). Consider \"{}\". [{}]",
                                                cause.id, cause.how_common_words, count.confirmed, learnt_.counted,
                                                between(count.interval), count.proposed, to_text(cause.place)));
        }
        if (proposed == 0) {
            page_.paragraph("  ", "None.");
            return;
        }
        page_.paragraph(
            "  ",
            "These are proposals; nothing was changed. Calls close more readily where the advice was right, so a "
            "strength may look better than it is, and a sign that is asked only on suspicion may look surer. Change "
            "a word only where the trade's own experience agrees, and then run lidlift try and lidlift compare.");
        if (shown_.would_change.empty()) {
            page_.paragraph("  ", "Of the recorded cases that ship, none would come out otherwise.");
            return;
        }
        page_.paragraph("  ", "Of the recorded cases that ship, these would come out otherwise:");
        list(shown_.would_change);
    }

    void not_enough() {
        page_.heading("WHERE CALLS ARE STILL MISSING");
        page_.paragraph("  ", fmt::format("{} of {} links have the {} calls that a word takes before it is questioned.",
                                          learnt_.links.size(), learnt_.links_in_all, least_calls_for_a_link));
        for (const LinkCount& count : learnt_.nearest)
            page_.paragraph("  - ", fmt::format("{}: {}, {} missing", name_of(count), calls(count.there),
                                                least_calls_for_a_link - count.there));
    }

    void left_out() {
        if (shown_.read.not_closed.empty() && shown_.read.misfits.empty()) return;
        page_.heading("WHAT WAS LEFT OUT");
        list(shown_.read.not_closed);
        list(shown_.read.misfits);
    }

    void list(const std::vector<std::string>& items) {
        const std::size_t count = full_ ? items.size() : std::min(items.size(), most_shown);
        for (std::size_t i = 0; i < count; ++i) page_.paragraph("  - ", items[i]);
        if (count < items.size()) page_.paragraph("  - ", fmt::format("and {} more; --full shows them.", items.size() - count));
    }

    const RuleBase& base_;
    const Learnt& learnt_;
    const LearntPage& shown_;
    bool full_;
    Page page_;
};

Json interval_json(const Interval& interval) { return Json::array({interval.low, interval.high}); }

Json link_json(const RuleBase& base, const LinkCount& count) {
    const Cause& cause = base.causes[count.cause];
    const Link& link = cause.links[count.link];
    Json out = {{"cause", cause.id},
                {"when", link.when_text},
                {"words", link.words},
                {"chance", count.chance_now},
                {"there", count.there},
                {"there_seen", count.there_seen},
                {"interval", interval_json(count.interval)},
                {"without", count.without},
                {"without_seen", count.without_seen},
                {"proposed", count.proposed.empty() ? Json(nullptr) : Json(count.proposed)}};
    if (count.there > 0 && count.without > 0)
        out["likelihood_ratio"] = {{"seen", count.ratios.seen.ratio},
                                   {"seen_interval", interval_json(count.ratios.seen.interval)},
                                   {"not_seen", count.ratios.not_seen.ratio},
                                   {"not_seen_interval", interval_json(count.ratios.not_seen.interval)}};
    return out;
}

}  // namespace

std::string render_learnt(const RuleBase& rule_base, const LearntPage& page, bool full) {
    return LearntText(rule_base, page, full).make();
}

std::string render_learnt_json(const RuleBase& rule_base, const LearntPage& page) {
    const Learnt& learnt = page.learnt;
    Json out = {{"rule_base", {{"name", rule_base.name}, {"version", rule_base.version}}},
                {"closed", learnt.closed},
                {"counted", learnt.counted},
                {"guesses", learnt.guesses},
                {"none_listed", learnt.none_listed},
                {"other_version", page.read.other_version},
                {"with_cause", learnt.with_cause},
                {"first", learnt.first},
                {"among_three", learnt.among_three},
                {"mean_rank", learnt.with_cause > 0 ? Json(learnt.mean_rank) : Json(nullptr)},
                {"brier",
                 {{"forecasts", learnt.forecasts},
                  {"score", learnt.brier.score},
                  {"reliability", learnt.brier.reliability},
                  {"resolution", learnt.brier.resolution},
                  {"uncertainty", learnt.brier.uncertainty},
                  {"within", learnt.brier.within}}}};
    out["slope"] = learnt.slope ? Json{{"slope", learnt.slope->slope}, {"shift", learnt.slope->shift}} : Json(nullptr);
    out["words"] = Json::array();
    for (const WordCameTrue& word : learnt.words)
        out["words"].push_back({{"words", word.words},
                                {"said", word.bin.count},
                                {"right", word.bin.came_true},
                                {"mean_chance", word.bin.mean_chance},
                                {"interval", interval_json(word.interval)}});
    out["links_in_all"] = learnt.links_in_all;
    out["links"] = Json::array();
    for (const LinkCount& count : learnt.links) out["links"].push_back(link_json(rule_base, count));
    out["nearest"] = Json::array();
    for (const LinkCount& count : learnt.nearest) out["nearest"].push_back(link_json(rule_base, count));
    out["causes"] = Json::array();
    for (const CauseCount& count : learnt.causes)
        out["causes"].push_back({{"cause", rule_base.causes[count.cause].id},
                                 {"confirmed", count.confirmed},
                                 {"interval", interval_json(count.interval)},
                                 {"how_common", rule_base.causes[count.cause].how_common_words},
                                 {"proposed", count.proposed.empty() ? Json(nullptr) : Json(count.proposed)}});
    out["would_change"] = page.would_change;
    out["left_out"] = page.read.not_closed;
    out["misfits"] = page.read.misfits;
    return dumped(out);
}

}  // namespace lidlift::cli
