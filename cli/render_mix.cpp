#include "cli/render_mix.hpp"

#include "cli/level_heading.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

/// "34 kg (20 to 48)", "34 kg" where both ends look the same, "34 kg (20 or more)" without an end.
std::string in_words(const Estimate& estimate, const std::string& unit) {
    const std::string low = rough_number(estimate.low);
    const std::string typical = rough_number(estimate.typical) + unit;
    if (!std::isfinite(estimate.high)) return typical + " (" + low + " or more)";
    const std::string high = rough_number(estimate.high);
    return low == high ? typical : typical + " (" + low + " to " + high + ")";
}

std::string ratio_in_words(const Estimate& ratio) {
    const std::string low = rough_number(ratio.low);
    const std::string high = rough_number(ratio.high);
    const std::string typical = rough_number(ratio.typical) + ":1";
    return low == high ? typical : typical + " (" + low + ":1 to " + high + ":1)";
}

std::string band_in_words(const Band& band, const char* unit) {
    return number_to_text(band.low) + " to " + number_to_text(band.high) + unit;
}

constexpr double widest_to_trust = 2;  // a range whose ends differ by more calls for adding in two goes

class MixWriter {
public:
    MixWriter(const MixPage& page, const Screen& screen)
        : base_(page.rule_base), question_(page.question), vessels_(page.vessels), answer_(page.answer), page_(screen) {}

    std::string make() {
        cautions();
        parts();
        page_.heading("THE MIXTURE");
        mixture(answer_.mixture);
        suits(answer_.suits, "HOW IT SUITS");
        plan();
        good_to_know();
        figures();
        sources();
        page_.empty_line();
        page_.paragraph(
            "",
            "Materials differ from load to load: mix, squeeze a handful, and correct. Local rules come before anything "
            "said here.");
        return page_.take();
    }

private:
    [[nodiscard]] const Material& material(Handle<Material> handle) const { return base_.materials[handle]; }
    [[nodiscard]] std::string name(Handle<Material> handle) const { return name_in_a_sentence(material(handle).name); }

    void cautions() {
        if (!answer_.cautions.empty()) page_.heading("BEFORE ANYTHING ELSE");
        for (const auto handle : answer_.cautions) {
            const Caution& caution = base_.cautions[handle];
            page_.paragraph(level_heading(caution.level), caution.name + ". " + caution.say);
        }
    }

    void parts() {
        page_.heading("WHAT GOES IN");
        for (const MixedIn& part : answer_.parts) {
            std::string text = name(part.material) + ", " + part.amount.written;
            if (part.amount.by == Amount::By::volume) {
                if (part.amount.written.find(" of ") == std::string::npos) {
                    const std::string litres = number_to_text(part.amount.size) + " L";
                    if (part.amount.written != litres) text += " (" + litres + ")";
                }
                text += ": " + in_words(part.portion.kg, " kg");
            }
            page_.paragraph("  ", text);
        }
    }

    void line(const char* what, const std::string& text) { page_.paragraph(fmt::format("  {:<15}", what), text); }

    void mixture(const Mixture& mixture) {
        line("Mass", in_words(mixture.kg, " kg"));
        line("Volume", mixture.litres ? in_words(*mixture.litres, " L") + ", rather less once it settles"
                                      : "not known: a density is missing");
        if (mixture.density) line("Bulk density", in_words(*mixture.density, " kg/m3") + ", rather more once it settles");
        line("Moisture", in_words(mixture.moisture, " %"));
        if (mixture.carbon_to_nitrogen)
            line("C:N", ratio_in_words(*mixture.carbon_to_nitrogen));
        else
            line("C:N", "not known: the nitrogen or the carbon of something in it is");
        if (mixture.nitrogen)
            line("Nitrogen",
                 in_words(*mixture.nitrogen, " % of the dry matter") + ", in all " + in_words(*mixture.nitrogen_kg, " kg"));
        if (mixture.air_space) line("Air space", air_space(mixture));
    }

    static std::string air_space(const Mixture& mixture) {
        std::string text = to_word(*mixture.air_space);
        if (mixture.air_space_least != mixture.air_space)
            text += std::string("; ") + to_word(*mixture.air_space_least) + " if it lies heavy";
        if (mixture.air_space_most != mixture.air_space)
            text += std::string("; ") + to_word(*mixture.air_space_most) + " if it lies loose";
        return text;
    }

    static std::string judged(const char* what, Judgement judgement, const Window& window, const char* unit) {
        const std::string best = band_in_words(window.best, unit);
        const bool all_best = window.works.low == window.best.low && window.works.high == window.best.high;
        const std::string where =
            all_best ? best + " works" : best + " is best, " + band_in_words(window.works, unit) + " works";
        switch (judgement) {
            case Judgement::below:
                return fmt::format("{} too low ({})", what, where);
            case Judgement::above:
                return fmt::format("{} too high ({})", what, where);
            case Judgement::low:
                return fmt::format("{} a little low ({})", what, where);
            case Judgement::high:
                return fmt::format("{} a little high ({})", what, where);
            case Judgement::inside:
                return fmt::format("{} right ({})", what, best);
        }
        return "";
    }

    /// Which of the two figures may be judged otherwise.
    static std::string unsure(const SuitsStage& one) {
        if (!one.moisture_unsure && !one.carbon_to_nitrogen_unsure) return "";
        const char* which = !one.carbon_to_nitrogen_unsure ? "the moisture" : !one.moisture_unsure ? "the C:N" : "both";
        return fmt::format(" Given the ranges above, {} may turn out otherwise.", which);
    }

    void suits(const std::vector<SuitsStage>& stages, const char* heading) {
        page_.heading(heading);
        for (const SuitsStage& one : stages) {
            std::string text =
                std::string(one.stage->name) + ": " + judged("moisture", *one.moisture, one.stage->moisture, " %") + "; " +
                (one.carbon_to_nitrogen ? judged("C:N", *one.carbon_to_nitrogen, one.stage->carbon_to_nitrogen, "")
                                        : "C:N not known") +
                "." + unsure(one);
            text[0] = static_cast<char>(text[0] - 'a' + 'A');
            page_.paragraph("  ", text);
            for (const auto handle : one.kept_out)
                page_.paragraph(
                    "    ", "But keep it from worms, since it holds " + name(handle) + ". " + material(handle).keep_from_worms);
        }
    }

    void plan() {
        if (!answer_.plan) return;
        page_.heading("WHAT TO ADD");
        page_.paragraph("  ", "Wanted: " + question_.target->words + ".");
        for (const auto handle : answer_.passed_over)
            page_.paragraph(
                "  ", "Left out: " + name(handle) + ", which has no place among worms. " + material(handle).keep_from_worms);
        if (!*answer_.plan) {
            page_.paragraph("  ", "It cannot be reached with these materials, because " + answer_.plan->fault().text + ".");
            return;
        }
        const MixPlan& plan = **answer_.plan;
        if (plan.add.empty()) {
            page_.paragraph("  ", "Nothing has to be added.");
            return;
        }
        for (const ToAdd& added : plan.add) to_add(added);
        const auto is_wide = [](const ToAdd& added) { return added.kg.high > widest_to_trust * added.kg.low; };
        if (std::ranges::any_of(plan.add, is_wide))
            page_.paragraph("  ", "The range is wide. Add half of it, mix, squeeze or test, and only then go on.");
        std::string not_wanted;
        for (const auto handle : answer_.only_at_hand) not_wanted += (not_wanted.empty() ? "" : "; ") + name(handle);
        if (!not_wanted.empty()) page_.paragraph("  ", "Not wanted: " + not_wanted + ".");
        page_.heading("AND THEN IT IS");
        mixture(plan.then);
        suits(plan.suits, "HOW IT SUITS THEN");
    }

    void to_add(const ToAdd& added) {
        std::string text = "Add " + in_words(added.kg, " kg") + " of " + name(added.material);
        if (added.litres) {
            text += ", that is " + in_words(*added.litres, " L");
            for (const Vessel& vessel : vessels_.all()) text += " or about " + in_measures(*added.litres, vessel);
        }
        page_.paragraph("  ", text + ".");
        if (!std::isfinite(added.kg.high))
            page_.paragraph("    ", "If the figures lie at the bad ends of their ranges, no amount of it is enough.");
        if (added.stock && added.kg.high > *added.stock)
            page_.paragraph("    ", "It may want more than the " + rough_number(*added.stock) + " kg at hand.");
    }

    /// "20 buckets (12 to 30)"
    static std::string in_measures(const Estimate& litres, const Vessel& vessel) {
        const std::string typical = in_vessels(litres.typical, vessel);
        const auto number = [&](double one) {
            const std::string text = in_vessels(one, vessel);
            return text.substr(0, text.find(' '));
        };
        if (!std::isfinite(litres.high)) return typical + " (" + number(litres.low) + " or more)";
        if (number(litres.low) == number(litres.high)) return typical;
        return typical + " (" + number(litres.low) + " to " + number(litres.high) + ")";
    }

    void good_to_know() {
        bool first = true;
        const auto say = [&](const std::string& text) {
            if (std::exchange(first, false)) page_.heading("GOOD TO KNOW");
            page_.paragraph("  ", text);
        };
        for (const auto handle : answer_.materials) {
            const Material& one = material(handle);
            if (!one.keep_from_worms.empty()) say(one.name + ": keep it from worms. " + one.keep_from_worms);
            if (!one.note.empty()) say(one.name + ": " + one.note);
            disputed(handle, "moisture", FigureName::moisture, one.moisture, " %", say);
            disputed(handle, "nitrogen", FigureName::nitrogen, one.nitrogen, " %", say);
            disputed(handle, "C:N", FigureName::carbon_to_nitrogen, one.carbon_to_nitrogen, ":1", say);
            disputed(handle, "density", FigureName::density, one.density, " kg/m3", say);
        }
    }

    [[nodiscard]] const MeasuredFigure* measured(Handle<Material> handle, FigureName figure) const {
        const MeasuredFigure* last = nullptr;
        for (const MeasuredFigure& one : question_.measured)
            if (one.material == handle && one.figure == figure) last = &one;
        return last;
    }

    template <class Say>
    void disputed(Handle<Material> handle, const char* what, FigureName name_of_figure, const std::optional<Figure>& figure,
                  const char* unit, const Say& say) const {
        if (!figure || !figure->disputed || measured(handle, name_of_figure)) return;
        say(fmt::format("Sources disagree about the {} of {}: {} to {}{}.{}", what, name(handle),
                        rough_number(figure->value.low), rough_number(figure->value.high), unit,
                        figure->note.empty() ? "" : " " + figure->note));
    }

    void figures() {
        page_.heading("FIGURES USED");
        for (const auto handle : answer_.materials) {
            const Material& one = material(handle);
            std::string text;
            figure(text, handle, "moisture", FigureName::moisture, one.moisture, " %");
            figure(text, handle, "nitrogen", FigureName::nitrogen, one.nitrogen, " % of the dry matter");
            figure(text, handle, "C:N", FigureName::carbon_to_nitrogen, one.carbon_to_nitrogen, "");
            figure(text, handle, "density", FigureName::density, one.density, " kg/m3");
            page_.paragraph("  ", one.name + ": " + text + ".");
        }
    }

    void figure(std::string& text, Handle<Material> handle, const char* what, FigureName name_of_figure,
                const std::optional<Figure>& figure, const char* unit) const {
        const MeasuredFigure* own = measured(handle, name_of_figure);
        if (!own && !figure) return;
        text += fmt::format("{}{} {}, {}", text.empty() ? "" : "; ", what, in_words(own ? own->value : figure->value, unit),
                            own ? std::string("as you measured") : standing_of(*figure));
    }

    static std::string standing_of(const Figure& figure) {
        std::string text(to_word(figure.standing));
        if (!figure.value.is_exact() && figure.range_standing != figure.standing)
            text += ", range " + std::string(to_word(figure.range_standing));
        return text;
    }

    void sources() {
        std::vector<Handle<Source>> list;
        const auto add = [&list](const Sources& sources) {
            for (const auto source : sources)
                if (std::ranges::find(list, source) == list.end()) list.push_back(source);
        };
        for (const auto handle : answer_.materials) {
            const Material& one = material(handle);
            add(one.sources);
            for (const auto* figure : {&one.moisture, &one.nitrogen, &one.carbon_to_nitrogen, &one.density})
                if (*figure) add((*figure)->sources);
        }
        page_.heading("SOURCES");
        for (const auto handle : list) {
            const Source& source = base_.sources[handle];
            std::string text = source.title;
            for (const std::string& more : {source.by, source.year})
                if (!more.empty()) text += ", " + more;
            page_.paragraph("  ", text + ".");
        }
        for (const StageWindows& stage : stage_windows())
            page_.paragraph("  ", fmt::format("For {}, moisture: {}. C:N: {}.", stage.name, stage.moisture.source,
                                              stage.carbon_to_nitrogen.source));
    }

    const RuleBase& base_;
    const MixQuestion& question_;
    const Vessels& vessels_;
    const MixAnswer& answer_;
    Page page_;
};

}  // namespace

std::string render_mix(const MixPage& page, const Screen& screen) { return MixWriter(page, screen).make(); }

}  // namespace lidlift::cli
