// The chapter of causes: what each is, how it shows, and what is done about it.
#include "cli/handbook_scribe.hpp"
#include "engine/quantity.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

/// "rules/causes_moisture_and_air.yaml" -> "moisture and air": trainers find an entry by its file's name.
std::string topic_of(const Place& place) {
    std::string name = place.file.substr(place.file.find_last_of('/') + 1);
    if (name.ends_with(".yaml")) name.resize(name.size() - 5);
    if (name.starts_with("causes_")) name.erase(0, 7);
    return spoken(name);
}

/// "points strongly (odds × 10)", "seen usually (80 %)".
Line strength(const std::string& words) {
    const std::size_t blank = words.find(' ');
    const std::string_view word = std::string_view(words).substr(blank + 1);
    std::string means;
    if (words.starts_with("seen")) {
        if (const auto share = frequency(word)) means = percent(*share);
    } else if (const auto factor = odds_factor(word)) {
        const double size = *factor >= 1 ? *factor : 1 / *factor;
        means = std::string("odds\u00A0") + (*factor >= 1 ? "\u00D7" : "\u00F7") + "\u00A0" +
                number_to_text(std::round(10 * size) / 10);
    }
    return strong(words) + plain(means.empty() ? "" : " (" + means + ")");
}

/// Rows whose last cell names sources of their own; where none does, the column says nothing and is left out.
void write_table(Scribe& scribe, std::vector<std::string> header, std::vector<std::vector<Line>> rows) {
    const bool any = std::ranges::any_of(rows, [](const auto& row) { return !row.back().empty(); });
    for (auto& row : rows) {
        if (!any)
            row.pop_back();
        else if (row.back().empty())
            row.back() = plain("as below");
    }
    if (!any) header.pop_back();
    scribe.table(std::move(header), std::move(rows));
}

class CauseWriter {
public:
    CauseWriter(Scribe& scribe, Handle<Cause> handle)
        : scribe_(scribe), base_(scribe.base), handle_(handle), cause_(base_.causes[handle]) {}

    void write() {
        scribe_.entry("cause", cause_.id, (cause_.code.empty() ? "" : cause_.code + " ") + cause_.name, cause_.name);
        scribe_.aside(code(cause_.id) + ", in " + plain(cause_.place.file));
        if (cause_.benign) scribe_.paragraph(strong("Nothing to mend: leave it alone."));
        scribe_.paragraph(plain(cause_.because));
        scribe_.particulars({{"How common", plain(cause_.how_common_words + " (" + percent(cause_.how_common) + ")")},
                             {"Stages", stages()},
                             {"Told apart by", plain(cause_.told_apart_by)},
                             {"Not to confuse with", scribe_.links(scribe_.refs.look_alikes[handle_.index])},
                             {"Brings about", scribe_.links(cause_.brings_about)},
                             {"Follows from", scribe_.links(scribe_.refs.roots[handle_.index])},
                             {"Never together with", apart()},
                             {"Guides differ", plain(cause_.guides_differ)}});
        write_circumstances();
        write_links();
        write_what_to_do();
        scribe_.sources(cause_.sources);
    }

private:
    [[nodiscard]] Line stages() const {
        if (!base_.stage || cause_.stages == ~AnswerSet{0}) return plain("any");
        const Sign& stage = base_.signs[*base_.stage];
        std::vector<Line> words;
        for (std::size_t i = 0; i < stage.answers.size(); ++i)
            if ((cause_.stages & answer_set(i)) != 0) words.push_back(plain(spoken(stage.answers[i].id)));
        return joined(words, ", ");
    }

    [[nodiscard]] Line apart() const {
        return cause_.alone ? plain("any other cause") : scribe_.links(scribe_.refs.apart[handle_.index]);
    }

    void write_circumstances() {
        std::vector<std::vector<Line>> rows;
        for (const Circumstance& circumstance : cause_.made_likelier_by) {
            Observed seen = scribe_.observed(circumstance.when, circumstance.when_text);
            rows.push_back({std::move(seen.what), std::move(seen.answer), strength(circumstance.words),
                            scribe_.links(circumstance.sources)});
        }
        if (rows.empty()) return;
        scribe_.part("What went before: likelier, or less likely, by");
        write_table(scribe_, {"Circumstance", "When", "Weight", "Source"}, std::move(rows));
    }

    void write_links() {
        std::vector<std::vector<Line>> rows;
        for (const Link& link : cause_.links) {
            const Condition when = std::visit([](const auto& part) { return Condition{part}; }, link.when);
            Observed seen = scribe_.observed(when, link.when_text);
            rows.push_back({std::move(seen.what), std::move(seen.answer), strength(link.words), scribe_.links(link.sources)});
        }
        if (!rows.empty()) {
            scribe_.part("Its signs");
            write_table(scribe_, {"Sign", "Answer", "Weight", "Source"}, std::move(rows));
        }
        std::vector<std::pair<std::string, Line>> hard;
        if (cause_.cannot_be_when) hard.emplace_back("Cannot be when", scribe_.condition(cause_.cannot_be_when_text));
        if (cause_.must_be_when) hard.emplace_back("Must be when", scribe_.condition(cause_.must_be_when_text));
        scribe_.particulars(std::move(hard));
    }

    void write_what_to_do() {
        scribe_.part(cause_.steps.empty() ? "What it asks for" : "What to do");
        std::vector<Handle<Caution>> cautions = cause_.cautions;
        for (const auto step : cause_.steps)
            cautions.insert(cautions.end(), base_.steps[step].cautions.begin(), base_.steps[step].cautions.end());
        scribe_.warn_of(cautions);
        for (const When when : {When::now, When::this_week, When::from_now_on}) write_steps(when);
        if (cause_.steps.empty()) scribe_.paragraph(plain("No step of its own."));

        std::vector<Line> avoided;
        for (const Avoided& avoid : cause_.avoid) {
            const auto* clash = std::get_if<Handle<Clash>>(&avoid);
            avoided.push_back(clash ? plain(base_.clashes[*clash].say + " (") + scribe_.link(*clash) + ")"
                                    : plain(std::get<std::string>(avoid)));
        }
        if (!avoided.empty()) scribe_.paragraph(strong("Do not"));
        scribe_.bullets(std::move(avoided));

        std::vector<Line> days;
        for (const double number : cause_.look_again_days) days.push_back(plain(quantity_to_text(number, *find_unit("days"))));
        scribe_.particulars({{"Look again after", joined(days, ", then ")}, {"Expect", plain(cause_.expect)}});
    }

    void write_steps(When when) {
        std::vector<Line> items;
        for (const auto handle : cause_.steps) {
            const Step& step = base_.steps[handle];
            if (step.when != when) continue;
            std::vector<Line> cautions;
            for (const auto caution : scribe_.by_danger(step.cautions)) cautions.push_back(scribe_.named(caution));
            Line line = cautions.empty() ? Line{} : plain("First ") + joined(cautions, ", ") + ". ";
            items.push_back(std::move(line) + step_in_words(step) + plain(" (") + scribe_.link(handle) + ")");
        }
        if (items.empty()) return;
        scribe_.paragraph(strong(capitalised(std::string(to_word(when)))));
        scribe_.bullets(std::move(items), true);
    }

    Scribe& scribe_;
    const RuleBase& base_;
    Handle<Cause> handle_;
    const Cause& cause_;
};

}  // namespace

void write_causes(Scribe& scribe) {
    scribe.chapter("causes", "Causes by topic");
    std::vector<std::string> topics;
    std::map<std::string, std::vector<Handle<Cause>>> by_topic;
    for (std::uint32_t i = 0; i < scribe.base.causes.size(); ++i) {
        const std::string topic = topic_of(scribe.base.causes[Handle<Cause>{i}].place);
        auto& list = by_topic[topic];
        if (list.empty()) topics.push_back(topic);
        list.push_back({i});
    }
    if (topics.empty()) scribe.paragraph(plain("There are none."));
    for (const std::string& topic : topics) {
        scribe.group(topic);
        std::vector<Line> overview;
        for (const auto handle : by_topic[topic])
            overview.push_back(scribe.link(handle) + plain(", " + scribe.base.causes[handle].how_common_words));
        scribe.bullets(std::move(overview));
        for (const auto handle : by_topic[topic]) CauseWriter(scribe, handle).write();
    }
}

}  // namespace lidlift::cli
