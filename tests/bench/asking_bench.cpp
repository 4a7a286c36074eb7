// What asking by expected information saves: lidlift_asking_bench [CALLS [same] [other] [twice] [seed=NUMBER]]
//
// Calls are drawn from the default rules and gone through with each way of choosing the next question, which then all stop for
// the same reasons. In the table `other` the answers are drawn from rules in which every strength is changed by a random amount
// (SD 0.7 in log-odds), in the table `twice` one sign in three stands there twice, so that the model is not graded on its own
// samples.
#include "engine/looking_ahead.hpp"
#include "engine/rule_base_reader.hpp"
#include "rules/default_rules.hpp"
#include "tests/bench/asking_policies.hpp"
#include "tests/bench/drawn_calls.hpp"
#include "tests/bench/processor_time.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace {

using namespace lidlift;
using namespace lidlift::bench;

constexpr std::size_t no_end = 10000;
constexpr double deviation = 0.7;             ///< of a trainer's strengths, in log-odds
constexpr std::uint32_t one_sign_in = 3;      ///< stands there twice
constexpr double equal = 0.02;                ///< so much fewer hits count as the same
constexpr std::size_t most_whole_lists = 40;  ///< asking everything takes long, and its ratio needs no more calls

struct Way {
    const char* name;
    Policy policy;
};
constexpr Way ways[] = {{"by information for effort (ours)", Policy::ours},
                        {"by information alone, no cost", Policy::no_cost},
                        {"in fixed order, of those worth asking", Policy::fixed_of_worth},
                        {"in random order, of those worth asking", Policy::random_of_worth},
                        {"in fixed order, the whole list", Policy::fixed_all}};

/// All calls of one policy, as they stand when no call may go beyond `most` questions.
struct Standing {
    double questions = 0;
    double effort = 0;
    double hits = 0;
    double right = 0;
};
Standing at_most(const std::vector<Course>& courses, std::size_t most) {
    Standing sum;
    for (const Course& course : courses) {
        const std::size_t asked = std::min(most, course.questions());
        sum.questions += static_cast<double>(asked);
        sum.effort += course.effort[asked];
        sum.hits += course.hit[asked];
        sum.right += course.right[asked];
    }
    const auto calls = static_cast<double>(courses.size());
    return {sum.questions / calls, sum.effort / calls, sum.hits / calls, sum.right / calls};
}

/// The fewest questions that bring `wanted` of a figure so that no further question takes it away again, and how many at most
/// in one call that is; the whole course where none do.
struct Reached {
    std::size_t most = no_end;
    Standing standing;
};
Reached to_reach(double wanted, double Standing::*figure, const std::vector<Course>& courses) {
    std::size_t longest = 0;
    for (const Course& course : courses) longest = std::max(longest, course.questions());
    Reached reached{no_end, at_most(courses, no_end)};
    for (std::size_t most = longest + 1; most-- > 0;) {
        const Standing standing = at_most(courses, most);
        if (standing.*figure < wanted) break;
        reached = {most, standing};
    }
    return reached;
}

void print_curve(const char* what, double Standing::*figure, const std::vector<std::vector<Course>>& courses) {
    std::printf("%-42s", what);
    const std::vector<std::size_t> marks = {0, 1, 2, 3, 4, 5, 6, 8, 10, 15, 20};
    for (const std::size_t most : marks) std::printf("%5zu", most);
    std::printf("\n");
    for (std::size_t way = 0; way < courses.size(); ++way) {
        std::printf("%-42s", ways[way].name);
        for (const std::size_t most : marks) std::printf("%5.0f", 100 * (at_most(courses[way], most).*figure));
        std::printf("\n");
    }
}

void print_asked_most(const RuleBase& base, const std::vector<Course>& courses) {
    constexpr std::size_t shown = 12;
    std::map<Handle<Sign>, int> times;
    for (const Course& course : courses)
        for (const auto sign : course.asked) ++times[sign];
    std::vector<std::pair<int, Handle<Sign>>> most;
    for (const auto& [sign, count] : times) most.emplace_back(-count, sign);
    std::ranges::sort(most);
    std::printf("asked most often in 100 calls:");
    for (std::size_t i = 0; i < most.size() && i < shown; ++i)
        std::printf(" %s %.0f", base.signs[most[i].second].id.c_str(),
                    -100.0 * most[i].first / static_cast<double>(courses.size()));
    std::printf("\n");
}

void print_reasons(const std::vector<Course>& courses) {
    std::map<StopReason, int> reasons;
    for (const Course& course : courses)
        if (course.why) ++reasons[*course.why];
    static constexpr const char* words[] = {"sure enough", "nothing worth asking", "nothing would change", "enough questions"};
    std::printf("why ours stops:");
    for (const auto& [reason, count] : reasons)
        std::printf(" %s %.0f %%;", words[static_cast<std::size_t>(reason)],
                    100.0 * count / static_cast<double>(courses.size()));
    std::printf("\n");
}

/// How many questions, and what effort, ours needs for what `other` comes to, within two points and in full.
void print_saving(const std::vector<Course>& ours, const std::vector<Course>& other, const char* name, const char* what,
                  double Standing::*figure) {
    const Standing whole = at_most(other, no_end);
    for (const double fewer : {equal, 0.0}) {
        const Reached reached = to_reach(whole.*figure - fewer, figure, ours);
        const Standing& standing = reached.standing;
        std::printf("  %s %.1f %%%s, asked %s: %.1f questions of its %.1f (%.0f %%), effort %.1f of %.1f (%.0f %%)%s\n", what,
                    100 * (whole.*figure), fewer > 0 ? " less 2 points" : "", name, standing.questions, whole.questions,
                    100 * standing.questions / whole.questions, standing.effort, whole.effort,
                    100 * standing.effort / whole.effort, reached.most == no_end ? "; not reached" : "");
    }
}

void table(const char* title, const std::vector<DrawnCall>& calls, const RuleBase& infer,
           const std::vector<Handle<Sign>>& original, const AskingLimits& limits, std::uint64_t seed) {
    std::printf("\n%s, %zu calls\n%-42s %9s %8s %7s %12s %7s\n", title, calls.size(), "", "questions", "effort", "hits %",
                "steps right", "Brier");
    std::vector<std::vector<Course>> courses;
    for (const Way& way : ways) {
        const std::size_t count = way.policy == Policy::fixed_all ? std::min(calls.size(), most_whole_lists) : calls.size();
        const std::vector<DrawnCall> some(calls.begin(), calls.begin() + static_cast<std::ptrdiff_t>(count));
        courses.push_back(go_through(some, infer, original, way.policy, limits, seed));
        const Standing standing = at_most(courses.back(), no_end);
        double brier = 0;
        for (const Course& course : courses.back()) brier += course.brier;
        std::printf("%-42s %9.1f %8.1f %7.1f %12.1f %7.3f\n", way.name, standing.questions, standing.effort,
                    100 * standing.hits, 100 * standing.right, brier / static_cast<double>(some.size()));
        std::fflush(stdout);
    }
    print_curve("hits %, after so many questions at most", &Standing::hits, courses);
    print_curve("steps right %, likewise", &Standing::right, courses);
    std::printf("what ours needs, from where on it stays so, for the\n");
    for (const std::size_t way : {2U, 3U}) {
        print_saving(courses[0], courses[way], ways[way].name, "hits", &Standing::hits);
        print_saving(courses[0], courses[way], ways[way].name, "steps right", &Standing::right);
    }
    print_reasons(courses[0]);
    print_asked_most(infer, courses[0]);
    std::fflush(stdout);
}

double median_milliseconds(const std::function<void()>& work) {
    std::vector<double> times;
    for (int i = 0; i < 15; ++i) {
        times.push_back(milliseconds_of(work));
    }
    std::ranges::sort(times);
    return times[times.size() / 2];
}

/// Choosing against one scoring, on the whole default base as it is.
void ratios(const RuleBase& base) {
    const Ranker ranker(base);
    std::printf("choosing the next question, against weighing once      choose    with reasons to stop\n");
    for (const std::vector<const char*>& answers :
         std::vector<std::vector<const char*>>{{"smell_ammonia=strong"},
                                               {"smell_rotten=strong", "squeeze=stream"},
                                               {"worm_place=up_walls_lid", "smell_sour=strong", "stage=worm_bed"}}) {
        Told told;
        std::string name;
        for (const char* answer : answers) {
            if (const auto fault = hear_argument(told, base, answer)) stop(fault->text);
            name += (name.empty() ? "" : " ") + std::string(answer);
        }
        Ranking ranking;
        const double weigh_once = median_milliseconds([&] { ranking = ranker.rank_in_brief(told.facts); });
        const double choose =
            median_milliseconds([&] { (void)next_questions(ranker, told, ranking, base.signs.size(), Aim::remedies); });
        const double step = median_milliseconds([&] { (void)next_step(ranker, told, ranking, 0, {}); });
        std::printf("%-52s %8.2f %12.2f   (%.1f ms, once %.1f ms)\n", name.substr(0, 52).c_str(), choose / weigh_once,
                    step / weigh_once, step, weigh_once);
    }
}

}  // namespace

int main(int argc, char** argv) {
    const auto calls = static_cast<std::size_t>(argc > 1 ? std::max(1, std::atoi(argv[1])) : 80);
    std::uint64_t seed = 20261125;
    std::vector<std::string_view> tables;
    for (int i = 2; i < argc; ++i) {
        const std::string_view word = argv[i];
        if (word.starts_with("seed="))
            seed = std::strtoull(argv[i] + 5, nullptr, 10);
        else
            tables.push_back(word);
    }
    const auto wanted = [&](std::string_view table) {
        return tables.empty() || std::ranges::find(tables, table) != tables.end();
    };
    RuleBaseReading reading = read_rule_base(default_rules());
    if (!reading.complaints.empty()) stop(to_text(reading.complaints.front()));
    RuleBase& base = reading.rule_base;
    ratios(base);
    AskingLimits limits;
    limits.most_questions = no_end;
    if (wanted("same"))
        table("answers drawn from the same rules, no limit of questions", draw_calls(base, base, calls, seed), base, {}, limits,
              seed);
    if (wanted("other"))
        table("answers drawn from rules with other strengths, no limit",
              draw_calls(with_changed_strengths(base, deviation, seed), base, calls, seed), base, {}, limits, seed);
    if (wanted("twice")) {
        const WithDuplicates twice = with_duplicated_signs(base, one_sign_in, seed);
        table("a third of the signs asked after twice, no limit", draw_calls(base, base, calls, seed), twice.base,
              twice.original, limits, seed);
    }
}
