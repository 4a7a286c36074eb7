#include "cli/show.hpp"

#include "cli/conversation.hpp"
#include "cli/render_show.hpp"
#include "engine/materials.hpp"
#include "engine/nearest_name.hpp"

#include <algorithm>

namespace lidlift::cli {

int show(const Options& options, const std::string& kind, const std::string& name) {
    const Loaded loaded = load_rule_base(options);
    if (!loaded.rule_base) return loaded.exit;
    const RuleBase& base = *loaded.rule_base;
    const Screen screen = screen_of_output();
    if (kind.empty()) return print(show_overview(base, options.json, screen)) ? done : cannot_read_or_write;

    // "sign" and "signs" are the same to a person.
    const std::string plural = std::ranges::find(show_kinds(), kind + "s") != show_kinds().end()    ? kind + "s"
                               : std::ranges::find(show_kinds(), kind + "es") != show_kinds().end() ? kind + "es"
                                                                                                    : kind;
    if (std::ranges::find(show_kinds(), plural) == show_kinds().end()) {
        const std::string hint = did_you_mean(kind, show_kinds());
        print_error("there is nothing called '" + kind + "' to show" + (hint.empty() ? "" : " (" + hint + ")") +
                    "; lidlift show lists what there is");
        return unusable_input;
    }
    if (name.empty()) return print(show_list(base, plural, options.json, screen)) ? done : cannot_read_or_write;
    if (plural == "materials") {
        const auto material = find_material(base, name);
        if (!material) {
            print_error(material.fault().text);
            return unusable_input;
        }
        return print(show_entry(base, plural, base.materials[*material].id, options.json, screen)) ? done
                                                                                                   : cannot_read_or_write;
    }
    const auto known = ids_of(base, plural);
    if (std::ranges::find(known, name) == known.end()) {
        const std::string hint = did_you_mean(name, known);
        print_error("there is no '" + name + "' among the " + plural + (hint.empty() ? "" : " (" + hint + ")"));
        return unusable_input;
    }
    return print(show_entry(base, plural, name, options.json, screen)) ? done : cannot_read_or_write;
}

}  // namespace lidlift::cli
