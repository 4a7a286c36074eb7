#include "engine/written_amount.hpp"

#include "engine/written_text.hpp"

#include <string_view>

namespace lidlift::written {
namespace {

std::string text_of(const Span& span) {
    std::string text = number_as_written(span.low);
    if (span.high != span.low) text += " to " + number_as_written(span.high);
    return text;
}

std::string text_of(const Measured& measured) { return text_of(measured.size) + " " + measured.unit.text; }

std::string text_of(const std::vector<Name>& names) {
    std::string text;
    for (const Name& name : names) text += (text.empty() ? "" : " or ") + name.text;
    return text;
}

std::string text_of(const Part& part) {
    const std::string place(to_word(part.where));
    switch (part.what) {
        case Part::What::all:
            return place;
        case Part::What::top:
            return "the top " + text_of(part.depth) + " of " + place;
        case Part::What::last_load:
            return "the last load";
        case Part::What::wet_part:
            return "the wet part of the last load";
        case Part::What::feed_of_a_day:
            return "the feed of a day";
    }
    return {};
}

std::string text_of(const Basis& basis) {
    std::string text = "for each ";
    if (basis.number != 1) text += number_as_written(basis.number) + " ";
    text += basis.unit.text + " of ";
    if (const Part* part = std::get_if<Part>(&basis.what)) return text + text_of(*part);
    text += std::get<Name>(basis.what).text;
    if (basis.fill) text += " to fill " + std::string(to_word(*basis.fill));
    return text;
}

struct AmountText {
    std::string operator()(const Reach& reach) const {
        const std::string goal = reach.goal == Reach::Goal::moisture ? text_of(reach.to) + " % moisture"
                                                                     : "a carbon to nitrogen ratio of " + text_of(reach.to);
        return text_of(reach.of) + " to bring " + text_of(reach.part) + " to " + goal;
    }
    std::string operator()(const Layer& layer) const {
        return "a layer of " + text_of(layer.depth) + " of " + text_of(layer.of) + " over " + (layer.half ? "half of " : "") +
               std::string(to_word(layer.where));
    }
    std::string operator()(const Dose& dose) const {
        return text_of(dose.size) + " of " + text_of(dose.of) + (dose.in_all ? " in all" : "") + (dose.a_day ? " a day" : "") +
               " " + text_of(dose.each);
    }
};

}  // namespace

std::string_view to_word(Where where) {
    switch (where) {
        case Where::bed:
            return "the bed";
        case Where::heap:
            return "the heap";
        case Where::bay:
            return "the bay";
        case Where::next_bay:
            return "the next bay";
    }
    return {};
}

std::string to_text(const Formula& amount) {
    std::string text = std::visit(AmountText{}, amount.how);
    for (const Limit& limit : amount.limits) text += ", at most " + text_of(limit.size) + " " + text_of(limit.each);
    if (amount.portions > 1) text += ", in " + std::to_string(amount.portions) + " portions";
    return text;
}

}  // namespace lidlift::written
