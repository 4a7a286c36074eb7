#include "cli/render_round.hpp"

#include "cli/level_heading.hpp"
#include "cli/local_rules.hpp"
#include "cli/render_text.hpp"
#include "engine/contains.hpp"
#include "engine/plain_text.hpp"
#include "engine/tank/figures_in_words.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

constexpr std::size_t most_complaints = 2;  // of one record; the others are on standard error
constexpr std::size_t most_tanks_named = 6;
constexpr std::size_t most_tanks_with_reasons = 12;  // of a larger site the reasons would bury the work

std::string lower_first(std::string text) {
    if (!text.empty() && text[0] >= 'A' && text[0] <= 'Z' && !(text.size() > 1 && text[1] >= 'A' && text[1] <= 'Z'))
        text[0] = static_cast<char>(text[0] - 'A' + 'a');
    return text;
}

std::string with_full_stop(std::string text) {
    if (!text.empty() && text.back() != '.' && text.back() != '!' && text.back() != '?') text += '.';
    return text;
}

class RoundPage {
public:
    RoundPage(const RuleBase& base, const Round& round, const RoundTextOptions& options)
        : base_(base), round_(round), options_(options), page_(options.screen) {}

    std::string make() {
        head();
        dangers();
        page_.heading("THE TANKS, MOST URGENT FIRST");
        int number = 0;
        for (const TankToday& tank : round_.tanks) one_tank(++number, tank);
        capacity();
        tail();
        return page_.take();
    }

private:
    void head() {
        page_.heading("ROUND ON " + to_text(round_.today));
        static constexpr std::array<std::pair<Urgency, const char*>, 7> kinds = {
            {{Urgency::danger, "in danger"},
             {Urgency::unreadable, "that cannot be read"},
             {Urgency::likely_cause, "with something wrong"},
             {Urgency::overdue, "with work overdue"},
             {Urgency::today, "with work for today"},
             {Urgency::this_week, "with work this week"},
             {Urgency::nothing, "with nothing to do"}}};
        std::vector<std::string> counts;
        for (const auto& [urgency, words] : kinds) {
            const auto count = std::ranges::count(round_.tanks, urgency, &TankToday::urgency);
            if (count > 0) counts.push_back(fmt::format("{} {}", count, words));
        }
        page_.paragraph("", (round_.site.name.empty() ? "" : with_full_stop(round_.site.name) + " ") +
                                tank::counted(static_cast<int>(round_.tanks.size()), "tank", "tanks") + ": " + joined(counts) +
                                ".");
        page_.paragraph("", "The load: " + in_short(round_.capacity) + ".");
    }

    /// Before anything there is to do: dangers to life, and what was seen calls for, with the tanks that each is about.
    void dangers() {
        for (const auto handle : round_.cautions) {
            const Caution& caution = base_.cautions[handle];
            const bool seen =
                std::ranges::any_of(round_.tanks, [&](const TankToday& tank) { return contains(dangers_of(tank), handle); });
            if (caution.level != Level::stop && !seen) continue;
            if (said_.empty()) page_.heading("BEFORE ANYTHING ELSE");
            said_.push_back(handle);
            std::vector<std::string> tanks;
            for (const TankToday& tank : round_.tanks)
                if (contains(cautions_of(tank), handle)) tanks.push_back(name_of(tank));
            const std::size_t more = tanks.size() > most_tanks_named ? tanks.size() - most_tanks_named : 0;
            tanks.resize(tanks.size() - more);
            page_.paragraph(level_heading(caution.level),
                            fmt::format("{} ({}{}). {}", caution.name, joined(tanks, "; "),
                                        more > 0 ? fmt::format("; and {} more", more) : "", caution.say));
        }
    }

    /// What the work in a tank needs read, right before it: in full where it comes first, after that by its name.
    void cautions_before_work(const TankToday& tank) {
        std::vector<std::string> above;
        const auto needed = cautions_of(tank);
        for (const auto handle : round_.cautions) {
            if (!contains(needed, handle) || contains(tank.dangers, handle)) continue;
            const Caution& caution = base_.cautions[handle];
            if (contains(said_, handle)) {
                above.push_back(caution.name);
                continue;
            }
            said_.push_back(handle);
            page_.paragraph(std::string("    ") + level_heading(caution.level), caution.name + ". " + caution.say);
        }
        if (!above.empty()) page_.paragraph("    mind       ", joined(above, "; ") + ": as it says above.");
    }

    void one_tank(int number, const TankToday& tank) {
        if (number > 1) page_.empty_line();
        page_.paragraph(fmt::format("{:>2}. ", number), name_of(tank));
        if (!tank.tank.record) return unreadable(tank);
        std::vector<std::string> stages;
        for (std::size_t bay = 0; bay < tank.state.bays.size(); ++bay)
            stages.push_back(bay_name(tank, bay) + ": " + stage_in_words(tank.state, bay));
        page_.paragraph("    ", joined(stages, "; ") + ".");
        if (tank.ahead > 0)
            page_.paragraph("    ", tank::counted(static_cast<int>(tank.ahead), "thing", "things") + " in its record " +
                                        (tank.ahead == 1 ? "lies" : "lie") + " after this day and " +
                                        (tank.ahead == 1 ? "is" : "are") + " left out.");
        if (options_.full) figures(tank);
        danger(tank);
        for (const FoundCause& found : tank.causes) cause(tank, found);
        cautions_before_work(tank);
        due(tank, Pressing::overdue, "overdue    ");
        due(tank, Pressing::today, "today      ");
        due(tank, Pressing::this_week, "this week  ");
        if (!tank.causes.empty() || tank.emergency || options_.full) page_.unbroken("    ", why_command(tank));
    }

    void unreadable(const TankToday& tank) {
        page_.paragraph("    ", "Its record cannot be used, so nobody can say how it stands:");
        for (std::size_t i = 0; i < std::min(tank.tank.complaints.size(), most_complaints); ++i)
            page_.paragraph("    ", to_text(tank.tank.complaints[i]));
        if (tank.tank.complaints.size() > most_complaints)
            page_.paragraph("    ", fmt::format("and {} more.", tank.tank.complaints.size() - most_complaints));
    }

    static std::string bay_name(const TankToday& tank, std::size_t bay) {
        return tank.tank.record->bays.size() == 1 ? "bed" : tank.tank.record->bays[bay].name + " bay";
    }

    [[nodiscard]] std::string stage_in_words(const TankState& state, std::size_t position) const {
        const BayState& bay = state.bays[position];
        std::string text = stage_word(bay.stage);
        const auto add = [&](const char* how, const std::optional<int>& days) {
            if (days) text += how + tank::days_in_words(*days);
        };
        switch (bay.stage) {
            case BayStage::resting:
                add(" for ", bay.days_since_filling);
                break;
            case BayStage::cooling:
            case BayStage::ready_for_worms:
                add(", rested for ", bay.days_since_filling);
                break;
            case BayStage::worm_bed:
                add(" for ", bay.days_since_worms);
                break;
            case BayStage::migrating:
                add(" after ", bay.days_since_worms);
                break;
            case BayStage::harvest_due:
                if (bay.days_since_worms)
                    text += ", " + tank::days_in_words(*bay.days_since_worms) + " after its worms went in";
                break;
            case BayStage::empty:
            case BayStage::filling:
                break;
        }
        const bool heats =
            bay.stage == BayStage::resting || bay.stage == BayStage::cooling || bay.stage == BayStage::ready_for_worms;
        if (heats && bay.temperature) text += ", " + tank::in_words(bay.temperature->value, "°C");
        return text;
    }

    void figures(const TankToday& tank) {
        for (std::size_t i = 0; i < tank.state.bays.size(); ++i) {
            const BayState& bay = tank.state.bays[i];
            std::vector<std::string> parts;
            if (!bay.stage_because.empty()) parts.push_back(bay.stage_because);
            const auto add = [&](const std::optional<Stated>& figure, const char* unit, const char* what) {
                if (figure) parts.push_back(std::string(what) + tank::in_words(figure->value, unit));
            };
            add(bay.kg, "kg", "holds about ");
            add(bay.moisture, "% water", "");
            add(bay.worms, "kg", "worms about ");
            add(bay.feed_per_day, "kg a day", "fed ");
            add(bay.feed_per_area, "kg a day on a square metre", "that is ");
            if (!parts.empty()) page_.paragraph("      - ", bay_name(tank, i) + ": " + joined(parts, "; ") + ".");
        }
    }

    void danger(const TankToday& tank) {
        if (tank.emergency) page_.paragraph("    ! ", "People first. Nothing else matters here until the danger is over.");
        std::vector<std::string> names;
        for (const auto caution : tank.dangers) names.push_back(base_.cautions[caution].name);
        if (!names.empty()) page_.paragraph("    ! ", "Danger, read above: " + joined(names, "; ") + ".");
    }

    void cause(const TankToday& tank, const FoundCause& found) {
        std::string text = bay_name(tank, found.bay) + ": " + base_.causes[found.cause].name + " - " +
                           likelihood_words(found.chance) + ", " + in_a_hundred(found.chance) + ".";
        std::vector<std::string> brings;
        for (const auto cause : found.brings) brings.push_back(base_.causes[cause].name);
        if (!brings.empty()) text += " It brings with it: " + joined(brings, "; ") + ".";
        page_.paragraph("    ? ", text);
    }

    [[nodiscard]] bool brief() const { return !options_.full && round_.tanks.size() > most_tanks_with_reasons; }

    void due(const TankToday& tank, Pressing pressing, const std::string& heading) {
        std::string lead = "    " + heading;
        std::string together;
        for (const DueWork& work : tank.due) {
            if (work.pressing != pressing) continue;
            const std::string text = bay_name(tank, work.bay) + ": " + sentence_of(work);
            if (brief()) {
                together += (together.empty() ? "" : " ") + text;
                continue;
            }
            page_.paragraph(lead, text);
            lead = std::string(lead.size(), ' ');
            if (options_.full) page_.paragraph(lead, "In time until " + to_text(work.until) + ". " + sources(work));
        }
        if (!together.empty()) page_.paragraph(lead, together);
    }

    /// What is to be done, why - where there is room for it - and what to look to before.
    [[nodiscard]] std::string sentence_of(const DueWork& work) const {
        std::string text = lower_first(work.say);
        const bool reason = options_.full || (!brief() && work.pressing != Pressing::this_week);
        if (reason && !work.because.empty()) {
            if (text.ends_with('.')) text.pop_back();
            text += " (" + work.because + ")";
        }
        text = with_full_stop(std::move(text));
        if (!work.check_first.empty()) text += " First: " + with_full_stop(lower_first(work.check_first));
        if (work.work && work.from > round_.today) text += " From " + to_text(work.from) + ".";
        return text;
    }

    [[nodiscard]] std::string sources(const DueWork& work) const {
        std::vector<std::string> names;
        for (const std::string& id : work.sources) {
            const auto source = base_.sources.find(id);
            if (!source) {
                names.push_back(id);
                continue;
            }
            const Source& found = base_.sources[*source];
            names.push_back(id == "common_practice" || found.by.empty() ? lower_first(found.title)
                                                                        : found.by + " (" + found.standing + ")");
        }
        return names.empty() ? std::string() : (names.size() == 1 ? "Source: " : "Sources: ") + joined(names, "; ") + ".";
    }

    std::string why_command(const TankToday& tank) const {
        return "lidlift why --tank " + tank.tank.file + " --on " + to_text(round_.today);
    }

    void capacity() {
        if (!options_.full) return;
        page_.heading("WHAT THE SITE CAN TAKE");
        if (round_.site.households)
            page_.paragraph(
                "", tank::counted(*round_.site.households, "household brings its waste.", "households bring their waste."));
        for (const std::string& line : in_full(round_.capacity)) page_.paragraph("", line);
        if (!round_.site.note.empty()) page_.paragraph("", with_full_stop(round_.site.note));
    }

    void tail() {
        page_.empty_line();
        if (!options_.full)
            page_.paragraph(
                "",
                "--full tells every reason and source and the sum of the load; lidlift why --tank FILE tells what to do about "
                "what is wrong.");
        page_.paragraph("", local_rules_first);
    }

    const RuleBase& base_;
    const Round& round_;
    RoundTextOptions options_;
    std::vector<Handle<Caution>> said_;  ///< in full, so far
    Page page_;
};

}  // namespace

const char* to_word(Urgency urgency) {
    switch (urgency) {
        case Urgency::danger:
            return "danger";
        case Urgency::unreadable:
            return "unreadable";
        case Urgency::likely_cause:
            return "likely cause";
        case Urgency::overdue:
            return "overdue";
        case Urgency::today:
            return "today";
        case Urgency::this_week:
            return "this week";
        case Urgency::nothing:
            return "nothing";
    }
    return "";
}

const char* to_word(Pressing pressing) {
    switch (pressing) {
        case Pressing::overdue:
            return "overdue";
        case Pressing::today:
            return "today";
        case Pressing::this_week:
            return "this week";
    }
    return "";
}

const char* to_word(Loading load) {
    switch (load) {
        case Loading::too_little_known:
            return "too little known";
        case Loading::within:
            return "within";
        case Loading::perhaps_too_much:
            return "perhaps too much";
        case Loading::too_much:
            return "too much";
    }
    return "";
}

std::string name_of(const TankToday& tank) {
    if (tank.tank.record) return tank.tank.record->name;
    return tank.tank.file.substr(tank.tank.file.find_last_of('/') + 1);
}

std::string render_round(const RuleBase& rule_base, const Round& round, const RoundTextOptions& options) {
    return RoundPage(rule_base, round, options).make();
}

}  // namespace lidlift::cli
