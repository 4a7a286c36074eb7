// What asking by expected information saves: lidlift_asking_bench [CALLS [LARGEST_SET]]
//
// Calls are drawn from the default rules and gone through with each way of choosing the next question, which then all stop for
// the same reasons. In the second table the answers are drawn from rules in which every strength is changed by a random amount
// (SD 0.7 in log-odds), in the third one sign in three stands there twice, so that the model is not graded on its own samples.
// Sets of at most LARGEST_SET causes are drawn and weighed (2, for speed; the program itself weighs 3).
#include "engine/looking_ahead.hpp"
#include "engine/rule_base_reader.hpp"
#include "rules/default_rules.hpp"
#include "tests/bench/asking_policies.hpp"
#include "tests/bench/drawn_calls.hpp"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <map>
#include <string>
#include <vector>

namespace {

using namespace lidlift;
using namespace lidlift::bench;

constexpr std::size_t no_end = 10000;
constexpr double deviation = 0.7;              ///< of a trainer's strengths, in log-odds
constexpr std::uint32_t one_sign_in = 3;       ///< stands there twice
constexpr double equal_hits = 0.02;            ///< so much fewer hits count as the same
constexpr std::size_t whole_list_one_in = 10;  ///< asking everything takes long, and the ratio needs no more

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

/// The fewest questions, and how many at most in one call, that bring `wanted` hits; the whole course where none does.
std::pair<std::size_t, Standing> to_reach(double wanted, const std::vector<Course>& courses) {
    for (std::size_t most = 0; most < 100; ++most)
        if (const Standing standing = at_most(courses, most); standing.hits >= wanted) return {most, standing};
    return {no_end, at_most(courses, no_end)};
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

/// How many questions, and what effort, ours needs for the hits of `other` within two points, and for no fewer hits at all.
void print_saving(const std::vector<Course>& ours, const std::vector<Course>& other, const char* name) {
    const Standing whole = at_most(other, no_end);
    for (const double fewer : {equal_hits, 0.0}) {
        const auto [most, standing] = to_reach(whole.hits - fewer, ours);
        std::printf(
            "ours for the %.1f %% hits of %s%s: %.1f questions of its %.1f (%.0f %%), effort %.1f of %.1f (%.0f %%)%s\n",
            100 * whole.hits, name, fewer > 0 ? ", less 2 points" : "", standing.questions, whole.questions,
            100 * standing.questions / whole.questions, standing.effort, whole.effort, 100 * standing.effort / whole.effort,
            most == no_end ? "; not reached" : "");
    }
}

void table(const char* title, const std::vector<DrawnCall>& calls, const RuleBase& infer,
           const std::vector<Handle<Sign>>& original, const AskingLimits& limits) {
    std::printf("\n%s, %zu calls\n%-42s %9s %8s %7s %7s\n", title, calls.size(), "", "questions", "effort", "hits %", "Brier");
    std::vector<std::vector<Course>> courses;
    for (const Way& way : ways) {
        const bool all = way.policy != Policy::fixed_all;
        const std::vector<DrawnCall> some(
            calls.begin(),
            calls.begin() + static_cast<std::ptrdiff_t>(all ? calls.size() : 1 + calls.size() / whole_list_one_in));
        courses.push_back(go_through(some, infer, original, way.policy, limits));
        const Standing standing = at_most(courses.back(), no_end);
        double brier = 0;
        for (const Course& course : courses.back()) brier += course.brier;
        std::printf("%-42s %9.1f %8.1f %7.1f %7.3f\n", way.name, standing.questions, standing.effort, 100 * standing.hits,
                    brier / static_cast<double>(some.size()));
        std::fflush(stdout);
    }
    print_curve("hits %, after so many questions at most", &Standing::hits, courses);
    print_curve("steps right %, likewise", &Standing::right, courses);
    print_saving(courses[0], courses[2], "fixed order");
    print_saving(courses[0], courses[3], "random order");
    print_saving(courses[0], courses[4], "the whole list");
    print_reasons(courses[0]);
    print_asked_most(infer, courses[0]);
    std::fflush(stdout);
}

double median_milliseconds(const std::function<void()>& work) {
    std::vector<double> times;
    for (int i = 0; i < 15; ++i) {
        const auto start = std::chrono::steady_clock::now();
        work();
        times.push_back(std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count());
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
        const double weigh_once = median_milliseconds([&] {
            const auto prepared = ranker.prepare(told.facts);
            (void)weigh(prepared.model, prepared.situation);
        });
        ranking = ranker.rank(told.facts);
        const double choose =
            median_milliseconds([&] { (void)next_questions(ranker, told, ranking, base.signs.size(), Aim::remedies); });
        const double step = median_milliseconds([&] { (void)next_step(ranker, told, ranking, 0, {}); });
        std::printf("%-52s %8.2f %12.2f   (%.1f ms, once %.1f ms)\n", name.substr(0, 52).c_str(), choose / weigh_once,
                    step / weigh_once, step, weigh_once);
    }
}

}  // namespace

int main(int argc, char** argv) {
    const auto calls = static_cast<std::size_t>(argc > 1 ? std::max(1, std::atoi(argv[1])) : 200);
    RuleBaseReading reading = read_rule_base(default_rules());
    if (!reading.complaints.empty()) stop(to_text(reading.complaints.front()));
    RuleBase& base = reading.rule_base;
    ratios(base);
    base.weighing.largest_set = argc > 2 ? std::atoi(argv[2]) : 2;
    AskingLimits limits;
    limits.most_questions = no_end;
    const std::vector<DrawnCall> same = draw_calls(base, base, calls);
    const std::vector<DrawnCall> other = draw_calls(with_changed_strengths(base, deviation), base, calls);
    const WithDuplicates twice = with_duplicated_signs(base, one_sign_in);
    table("answers drawn from the same rules, no limit of questions", same, base, {}, limits);
    table("answers drawn from rules with other strengths, no limit", other, base, {}, limits);
    table("a third of the signs asked after twice, no limit", same, twice.base, twice.original, limits);
    limits.most_questions = AskingLimits{}.most_questions;
    table("answers drawn from rules with other strengths, ten questions", other, base, {}, limits);
}
