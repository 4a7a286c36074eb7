// How the time grows with the rule base: lidlift_growth_bench. Copies of the default rules stand side by side, each entry under
// a name of its own. Times are given as multiples of the default's, and the exponent of the growth beside them: 1.0 is eight
// times the time for eight times the rules.
//
// Rule files are grown as text, up to what the reader takes; there the copies' entries refer to those of the first. All else is
// grown as values, where each copy refers to itself, so that of sixty-four times the causes one part in sixty-four has to do
// with what was said.
#include "engine/diagnosis.hpp"
#include "engine/review/review.hpp"
#include "engine/rule_base_fields.hpp"
#include "engine/rule_base_image.hpp"
#include "engine/rule_base_reader.hpp"
#include "rules/default_rules.hpp"
#include "tests/bench/processor_time.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

namespace {

using namespace lidlift;

[[noreturn]] void stop(const std::string& why) {
    std::fprintf(stderr, "growth_bench: %s\n", why.c_str());
    std::exit(1);
}

/// The least of several times, in milliseconds; at least `times` of them, and no fewer than fit into a quarter of a second.
template <class Work>
double least(int times, const Work& work) {
    constexpr double enough = 250;
    double best = 0;
    double sum = 0;
    for (int i = 0; i < times || (sum < enough && i < 100); ++i) {
        const double time = bench::milliseconds_of(work);
        best = i == 0 ? time : std::min(best, time);
        sum += time;
    }
    return best;
}

std::string suffix(int copy) { return "_" + std::to_string(copy); }

/// Makes one copy of a rule base fit to stand behind others: handles point at the copy's own entries, names are its own.
class Moved {
public:
    Moved(const RuleBase& base, int copy) : base_(base), copy_(copy) {}

    void operator()(auto&&... values) { (move(values), ...); }

private:
    template <class Entry>
    static const Catalogue<Entry>& catalogue(const RuleBase& base) {
        if constexpr (std::same_as<Entry, Source>) return base.sources;
        if constexpr (std::same_as<Entry, Sign>) return base.signs;
        if constexpr (std::same_as<Entry, Conclusion>) return base.conclusions;
        if constexpr (std::same_as<Entry, Rule>) return base.rules;
        if constexpr (std::same_as<Entry, Cause>) return base.causes;
        if constexpr (std::same_as<Entry, Step>) return base.steps;
        if constexpr (std::same_as<Entry, Caution>) return base.cautions;
        if constexpr (std::same_as<Entry, Clash>) return base.clashes;
        if constexpr (std::same_as<Entry, Material>) return base.materials;
    }
    template <class Entry>
    void move(Handle<Entry>& handle) {
        handle.index += static_cast<std::uint32_t>(copy_ * static_cast<int>(catalogue<Entry>(base_).size()));
    }
    void move(auto& value) {
        if constexpr (requires { each_field(value, *this); }) each_field(value, *this);
    }
    template <class T>
    void move(std::optional<T>& value) {
        if (value) move(*value);
    }
    template <class T>
    void move(std::vector<T>& list) {
        for (T& value : list) move(value);
    }
    template <class... T>
    void move(std::variant<T...>& value) {
        std::visit([this](auto& held) { this->move(held); }, value);
    }

    const RuleBase& base_;
    int copy_;
};

template <class Entry>
void append(Catalogue<Entry>& all, const Catalogue<Entry>& more, Moved& moved, int copy) {
    for (Entry entry : more) {
        each_field(entry, moved);
        entry.id += suffix(copy);
        if constexpr (requires { entry.same_observation; })
            if (!entry.same_observation.empty()) entry.same_observation += suffix(copy);
        all.add(std::move(entry));
    }
}

/// `times` copies of a rule base as one.
RuleBase grown(const RuleBase& base, int times) {
    RuleBase all = base;
    for (int copy = 1; copy < times; ++copy) {
        Moved moved(base, copy);
        append(all.sources, base.sources, moved, copy);
        append(all.signs, base.signs, moved, copy);
        append(all.conclusions, base.conclusions, moved, copy);
        append(all.rules, base.rules, moved, copy);
        append(all.causes, base.causes, moved, copy);
        append(all.steps, base.steps, moved, copy);
        append(all.cautions, base.cautions, moved, copy);
        append(all.clashes, base.clashes, moved, copy);
        append(all.materials, base.materials, moved, copy);
        auto order = base.rule_order;
        auto rules_for = base.rules_for;
        moved(order, rules_for);
        all.rule_order.insert(all.rule_order.end(), order.begin(), order.end());
        all.rules_for.insert(all.rules_for.end(), rules_for.begin(), rules_for.end());
    }
    return all;
}

/// The default rule files `times` over. An entry's name stands alone on its line, two blanks in, before a colon.
std::vector<RuleText> grown_texts(int times) {
    std::vector<RuleText> all = default_rules();
    const std::size_t count = all.size();
    for (int copy = 1; copy < times; ++copy)
        for (std::size_t i = 0; i < count; ++i) {
            const std::string& text = all[i].text;
            if (text.find("\nweighing:") != std::string::npos || text.starts_with("reviewed:") ||
                text.find("\nreviewed:") != std::string::npos)
                continue;
            std::string renamed;
            for (std::size_t begin = 0; begin < text.size();) {
                const std::size_t end = std::min(text.find('\n', begin), text.size() - 1) + 1;
                const std::string_view line = std::string_view(text).substr(begin, end - begin);
                const std::size_t colon = line.find(':');
                const bool names = line.starts_with("  ") && line[2] != ' ' && line[2] != '#' && line[2] != '-' &&
                                   colon != std::string_view::npos;
                renamed += names ? std::string(line.substr(0, colon)) + suffix(copy) + std::string(line.substr(colon)) : line;
                begin = end;
            }
            all.push_back({all[i].name + suffix(copy), std::move(renamed)});
        }
    return all;
}

/// One line of the table: what was measured, at one, eight and sixty-four times the default; less than zero: not measured.
void print_line(const char* what, const std::vector<double>& times) {
    std::printf("%-34s", what);
    for (const double time : times)
        if (time >= 0)
            std::printf(" %11.1f", time / times.front());
        else
            std::printf(" %11s", "-");
    for (std::size_t i = 1; i < times.size(); ++i)
        if (times[i] >= 0)
            std::printf(" %7.2f", std::log(times[i] / times[i - 1]) / std::log(8.0));
        else
            std::printf(" %7s", "-");
    std::printf(" %11.3f\n", times.front());
    std::fflush(stdout);
}

}  // namespace

int main() {
    constexpr double not_measured = -1;
    const Outcome<RuleBase> base = default_rule_base();
    if (!base) stop(base.fault().text);
    std::printf("%-34s %11s %11s %11s %15s %11s\n", "times the default rule base", "1", "8", "64", "exponents", "1 in ms");

    std::vector<double> reading, decoding, readying, chaining, ranking, asking, checking;
    for (const int times : {1, 8, 64}) {
        const std::vector<RuleText> texts = times <= 8 ? grown_texts(times) : std::vector<RuleText>{};
        std::size_t bytes = 0;
        for (const RuleText& text : texts) bytes += text.text.size();
        if (!texts.empty() && bytes <= largest_rule_base) {
            const RuleBaseReading read = read_rule_base(texts);
            if (!read.complaints.empty()) stop(to_text(read.complaints.front()));
            if (static_cast<int>(read.rule_base.causes.size()) != times * static_cast<int>(base->causes.size()))
                stop("the copies lack causes");
            reading.push_back(least(1, [&] { return read_rule_base(texts).complaints.size(); }));
        } else {
            reading.push_back(not_measured);  // beyond largest_rule_base
        }
        const RuleBase all = grown(*base, times);
        const std::string image = to_image(all);
        decoding.push_back(least(3, [&] {
            if (!from_image(image)) stop("an image cannot be read");
        }));
        readying.push_back(least(1, [&] { return Ranker(all).model().features.size(); }));
        const Ranker ranker(all);
        Told told;
        if (const auto fault = hear_argument(told, all, "smell_ammonia=strong")) stop(fault->text);
        chaining.push_back(least(3, [&] { return chain(all, told.facts).truth.size(); }));
        Ranking result;
        ranking.push_back(least(1, [&] { result = ranker.rank_in_brief(told.facts); }));
        asking.push_back(least(1, [&] { return next_questions(ranker, told, result, questions_to_show).size(); }));
        checking.push_back(times > 1 ? not_measured : least(1, [&] { return review(all).size(); }));
    }
    print_line("reading the rule files", reading);
    print_line("reading the image", decoding);
    print_line("making ready to weigh", readying);
    print_line("chaining", chaining);
    print_line("ranking, after one answer", ranking);
    print_line("next questions", asking);
    print_line("check", checking);
    std::printf("A rule base of more than %zu bytes or %zu causes is refused by the reader; check was measured once only.\n",
                largest_rule_base, most_causes);
}
