#include "engine/answers.hpp"
#include "engine/entry_words.hpp"
#include "engine/mix_words.hpp"
#include "engine/plain_text.hpp"
#include "engine/tank_log.hpp"
#include "engine/tank_record.hpp"
#include "tests/fuzz/invariants.hpp"
#include "tests/fuzz/targets.hpp"

namespace lidlift::fuzz {
namespace {

std::vector<std::string> lines_of(std::string_view text) {
    std::vector<std::string> lines;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        lines.emplace_back(text.substr(0, end));
        text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
    }
    return lines;
}

void ensure_sayable(const Fault& fault) {
    ensure(!fault.text.empty(), "refused without a word");
    ensure_harmless(for_terminal(fault.text));
}

void tell(const std::vector<std::string>& arguments) {
    Told told;
    for (const std::string& argument : arguments)
        if (const auto fault = hear_argument(told, default_base(), argument)) ensure_sayable(*fault);
    ensure_sound(told.facts, default_base());
}

void mix(const std::vector<std::string>& arguments) {
    static const MaterialNames names(default_base());
    const Vessels vessels;
    for (const std::string& argument : arguments) {
        if (const auto loads = read_loads(argument, names, vessels); !loads)
            ensure_sayable(loads.fault());
        else
            for (const Load& load : *loads)
                ensure(load.material.index < default_base().materials.size(), "a material that the rule base does not have");
        if (const auto hand = read_at_hand(argument, names, vessels); !hand) ensure_sayable(hand.fault());
        if (const auto target = read_target(argument); !target) ensure_sayable(target.fault());
        if (const auto figure = read_measured(argument, names); !figure) ensure_sayable(figure.fault());
    }
}

/// An entry that is made of words can be put into a record, which can be read again or says what it lacks.
void log(const std::vector<std::string>& arguments) {
    const auto entry = entry_from_words(arguments, Vessels{}, default_base());
    if (!entry) {
        ensure_sayable(entry.fault());
        return;
    }
    const auto logged = with_entry("tank: T\n", "tank.yaml", *entry);
    if (!logged) {
        ensure_sayable(logged.fault());
        return;
    }
    ensure_placed(read_tank_record(logged->text, "tank.yaml", default_base()).complaints, logged->text, "tank.yaml");
}

}  // namespace

void one_command_line(std::string_view text) {
    // As cli/main does: an argument that holds a bad character is refused before anything looks at it.
    if (find_bad_character(text)) return;
    const std::vector<std::string> arguments = lines_of(text);
    tell(arguments);
    mix(arguments);
    log(arguments);
}

}  // namespace lidlift::fuzz
