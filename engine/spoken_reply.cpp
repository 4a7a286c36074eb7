#include "engine/spoken_reply.hpp"

#include "engine/nearest_name.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace lidlift {
namespace {

using What = Wish::What;

constexpr std::size_t shortest_forgiven_word = 5;  // as the phrasebook does
constexpr std::size_t most_digits = 3;             // of a number of an option

constexpr std::array<std::pair<std::string_view, What>, 100> wishes = {{{"don't know", What::dont_know},
                                                                        {"dont know", What::dont_know},
                                                                        {"do not know", What::dont_know},
                                                                        {"i don't know", What::dont_know},
                                                                        {"i dont know", What::dont_know},
                                                                        {"i do not know", What::dont_know},
                                                                        {"dunno", What::dont_know},
                                                                        {"no idea", What::dont_know},
                                                                        {"not known", What::dont_know},
                                                                        {"unknown", What::dont_know},
                                                                        {"not sure", What::dont_know},
                                                                        {"i'm not sure", What::dont_know},
                                                                        {"can't tell", What::dont_know},
                                                                        {"cannot tell", What::dont_know},
                                                                        {"can't say", What::dont_know},
                                                                        {"cannot say", What::dont_know},
                                                                        {"hard to say", What::dont_know},
                                                                        {"idk", What::dont_know},
                                                                        {"i dunno", What::dont_know},
                                                                        {"i've no idea", What::dont_know},
                                                                        {"i have no idea", What::dont_know},
                                                                        {"no clue", What::dont_know},
                                                                        {"i have no clue", What::dont_know},
                                                                        {"i've no clue", What::dont_know},
                                                                        {"not a clue", What::dont_know},
                                                                        {"haven't a clue", What::dont_know},
                                                                        {"i haven't a clue", What::dont_know},
                                                                        {"unsure", What::dont_know},
                                                                        {"i am not sure", What::dont_know},
                                                                        {"cant tell", What::dont_know},
                                                                        {"i can't tell", What::dont_know},
                                                                        {"i cant tell", What::dont_know},
                                                                        {"i cannot tell", What::dont_know},
                                                                        {"cant say", What::dont_know},
                                                                        {"i can't say", What::dont_know},
                                                                        {"i cant say", What::dont_know},
                                                                        {"i couldn't say", What::dont_know},
                                                                        {"couldn't say", What::dont_know},
                                                                        {"i couldn't tell you", What::dont_know},
                                                                        {"couldn't tell you", What::dont_know},
                                                                        {"haven't looked", What::dont_know},
                                                                        {"i haven't looked", What::dont_know},
                                                                        {"havent looked", What::dont_know},
                                                                        {"i havent looked", What::dont_know},
                                                                        {"not looked", What::dont_know},
                                                                        {"didn't look", What::dont_know},
                                                                        {"i didn't look", What::dont_know},
                                                                        {"have not looked", What::dont_know},
                                                                        {"no one looked", What::dont_know},
                                                                        {"nobody looked", What::dont_know},
                                                                        {"skip", What::dont_know},
                                                                        {"pass", What::dont_know},
                                                                        {"?", What::dont_know},
                                                                        {"why", What::why},
                                                                        {"why?", What::why},
                                                                        {"why do you ask", What::why},
                                                                        {"why do you ask?", What::why},
                                                                        {"why are you asking", What::why},
                                                                        {"why are you asking?", What::why},
                                                                        {"so far", What::so_far},
                                                                        {"so far?", What::so_far},
                                                                        {"think", What::so_far},
                                                                        {"what do you think", What::so_far},
                                                                        {"what do you think?", What::so_far},
                                                                        {"what do you think so far", What::so_far},
                                                                        {"what do you think so far?", What::so_far},
                                                                        {"back", What::back},
                                                                        {"go back", What::back},
                                                                        {"undo", What::back},
                                                                        {"change", What::change},
                                                                        {"list", What::list},
                                                                        {"answers", What::list},
                                                                        {"my answers", What::list},
                                                                        {"what did i say", What::list},
                                                                        {"what did i say?", What::list},
                                                                        {"again", What::repeat},
                                                                        {"repeat", What::repeat},
                                                                        {"say again", What::repeat},
                                                                        {"pardon", What::repeat},
                                                                        {"pardon?", What::repeat},
                                                                        {"what?", What::repeat},
                                                                        {"stop", What::stop},
                                                                        {"enough", What::stop},
                                                                        {"that's enough", What::stop},
                                                                        {"advise", What::stop},
                                                                        {"advise now", What::stop},
                                                                        {"advice", What::stop},
                                                                        {"stop and advise", What::stop},
                                                                        {"that's all", What::stop},
                                                                        {"finish", What::stop},
                                                                        {"done", What::stop},
                                                                        {"pause", What::pause},
                                                                        {"later", What::pause},
                                                                        {"leave", What::pause},
                                                                        {"quit", What::pause},
                                                                        {"exit", What::pause},
                                                                        {"bye", What::pause},
                                                                        {"help", What::help},
                                                                        {"help!", What::help},
                                                                        {"help?", What::help}}};

std::string_view trimmed(std::string_view text) {
    const auto begin = text.find_first_not_of(' ');
    if (begin == std::string_view::npos) return {};
    return text.substr(begin, text.find_last_not_of(' ') - begin + 1);
}

/// A whole number of a few digits, and nothing else.
std::optional<std::size_t> small_number(std::string_view text) {
    if (text.empty() || text.size() > most_digits) return std::nullopt;
    std::size_t number = 0;
    for (const char c : text) {
        if (c < '0' || c > '9') return std::nullopt;
        number = number * 10 + static_cast<std::size_t>(c - '0');
    }
    return number;
}

std::string as_id(std::string_view text) {
    std::string id(text);
    for (char& c : id)
        if (c == ' ' || c == '-') c = '_';
    return id;
}

bool take_front(std::string_view& text, std::string_view word) {
    if (!text.starts_with(word)) return false;
    text = trimmed(text.substr(word.size()));
    return true;
}

bool take_back(std::string_view& text, std::string_view word) {
    if (!text.ends_with(word)) return false;
    text = trimmed(text.substr(0, text.size() - word.size()));
    while (text.ends_with(',')) text = trimmed(text.substr(0, text.size() - 1));
    return true;
}

bool says_yes(std::string_view text) {
    for (const std::string_view word : {"yes", "y", "yeah", "yep", "yup", "aye", "yes it is", "it is", "yes there is", "i do"})
        if (text == word) return true;
    return false;
}

bool says_no(std::string_view text) {
    for (const std::string_view word : {"no", "n", "nope", "nah", "no it isn't", "no there isn't", "not at all", "none"})
        if (text == word) return true;
    return false;
}

bool says_none(std::string_view text) {
    for (const std::string_view word : {"none", "none of these", "none of them", "nothing", "neither", "no", "0", "nope"})
        if (text == word) return true;
    return false;
}

struct Named {
    std::size_t position;
    bool negated = false;
};

std::vector<std::string_view> split(std::string_view text, const std::vector<std::string_view>& joints) {
    std::vector<std::string_view> parts;
    for (std::size_t begin = 0; begin < text.size();) {
        std::size_t end = text.size();
        std::size_t width = 0;
        for (const std::string_view joint : joints)
            if (const auto at = text.find(joint, begin); at < end) {
                end = at;
                width = joint.size();
            }
        if (const auto part = trimmed(text.substr(begin, end - begin)); !part.empty()) parts.push_back(part);
        begin = end + width;
        if (width == 0) break;
    }
    return parts;
}

/// The answer `none` to a question whether something is there: "Are there ants in the bed - none, a trail, or a nest?" may be
/// answered "no". To "Is the lid dry, misted or dripping?" or "Is there a sound roof, one that leaks, or none?" that would tell
/// nothing; where presence is the question, `none` is the first answer.
std::optional<std::size_t> denied_by_no(const Sign& sign) {
    static constexpr std::array<std::string_view, 10> whether = {"is ",   "are ", "did ", "does ", "do ",
                                                                 "have ", "has ", "was ", "were ", "could "};
    static constexpr std::array<std::string_view, 5> denials = {"no", "not", "nobody", "nothing", "none"};
    const std::string ask = plain_words(sign.ask);
    const auto none = sign.find_answer("none");
    if (none != 0U || std::ranges::none_of(whether, [&](std::string_view word) { return ask.starts_with(word); }))
        return std::nullopt;
    const std::string means = plain_words(sign.answers[*none].means);
    const auto words = split(means, {" ", ","});
    const bool denies =
        std::ranges::any_of(words, [&](std::string_view word) { return std::ranges::find(denials, word) != denials.end(); });
    return denies ? none : std::nullopt;
}

/// The answer that `text` names exactly.
std::optional<std::size_t> exact(const Sign& sign, std::string_view text) {
    if (sign.sort == SignSort::quantity) {
        if (text.size() == 1 && text.front() >= 'a' && text.front() < static_cast<char>('a' + sign.answers.size()))
            return static_cast<std::size_t>(text.front() - 'a');
    } else if (const auto number = small_number(text); number && *number >= 1 && *number <= sign.answers.size()) {
        return *number - 1;
    }
    if (const auto id = sign.find_answer(as_id(text))) return id;
    for (std::size_t i = 0; i < sign.answers.size(); ++i) {
        const Answer& answer = sign.answers[i];
        if (plain_words(answer.means) == text) return i;
        for (const std::string& heard : answer.heard_as)
            if (plain_words(heard) == text) return i;
    }
    if (sign.sort == SignSort::yes_no && says_yes(text)) return 0;
    if (sign.sort == SignSort::yes_no && says_no(text)) return 1;
    if (says_no(text))
        if (const auto none = denied_by_no(sign)) return none;
    if (says_none(text))
        for (std::size_t i = 0; i < sign.answers.size(); ++i)
            if (sign.answers[i].none_of_these) return i;
    return std::nullopt;
}

/// The one answer whose name is a slip of the pen away.
std::optional<std::size_t> nearly(const Sign& sign, std::string_view text) {
    if (text.size() < shortest_forgiven_word) return std::nullopt;
    std::optional<std::size_t> found;
    for (std::size_t i = 0; i < sign.answers.size(); ++i) {
        if (edit_distance(sign.answers[i].id, as_id(text)) > 1) continue;
        if (found) return std::nullopt;
        found = i;
    }
    return found;
}

/// The one answer that holds these words in a row as it is read out: "open on top" for "the food lies open on top". One word
/// alone may be the question's own, and what denies must not be left out.
std::optional<std::size_t> a_part_of(const Sign& sign, std::string_view text) {
    if (sign.sort == SignSort::quantity || text.find(' ') == std::string_view::npos) return std::nullopt;
    static constexpr std::array<std::string_view, 8> denials = {"no",      "not",     "none",   "nobody",
                                                                "nothing", "without", "hardly", "never"};
    const std::string wanted = " " + std::string(text) + " ";
    std::optional<std::size_t> found;
    std::string left_over;
    for (std::size_t i = 0; i < sign.answers.size(); ++i) {
        const std::string means = " " + plain_words(sign.answers[i].means) + " ";
        const auto at = means.find(wanted);
        if (at == std::string::npos) continue;
        if (found) return std::nullopt;
        found = i;
        left_over = means.substr(0, at) + " " + means.substr(at + wanted.size());
    }
    for (const std::string_view word : split(left_over, {" ", ",", ";"}))
        if (std::ranges::find(denials, word) != denials.end()) return std::nullopt;
    return found;
}

std::optional<Named> named(const Sign& sign, std::string_view text) {
    if (const auto position = exact(sign, text)) return Named{*position};
    if (take_front(text, "not "))
        if (const auto position = exact(sign, text)) return Named{*position, true};
    if (const auto position = nearly(sign, text)) return Named{*position};
    if (const auto position = a_part_of(sign, text)) return Named{*position};
    return std::nullopt;
}

/// All parts as answers of the sign, or none.
std::vector<Named> all_named(const Sign& sign, const std::vector<std::string_view>& parts) {
    std::vector<Named> result;
    for (const std::string_view part : parts) {
        const auto one = named(sign, part);
        if (!one) return {};
        result.push_back(*one);
    }
    return result;
}

/// A measurement as people say it, in the words that `hear` takes.
std::string measurement(const Sign& sign, std::string_view text) {
    for (const std::string_view word :
         {"about ", "around ", "roughly ", "approximately ", "nearly ", "almost ", "some ", "ca "})
        take_front(text, word);
    std::string value(text);
    const auto replace = [&](std::string_view what, std::string_view by) {
        if (const auto at = value.find(what); at != std::string::npos) value.replace(at, what.size(), by);
    };
    if (value.starts_with("between ")) {
        value.erase(0, std::string_view("between ").size());
        replace(" and ", " to ");
    }
    for (const std::string_view word : {"over ", "more than ", "higher than "})
        if (value.starts_with(word)) value.replace(0, word.size(), "above ");
    for (const std::string_view word : {"under ", "less than ", "lower than "})
        if (value.starts_with(word)) value.replace(0, word.size(), "below ");
    // "28-32", but not "-5".
    if (const auto dash = value.find('-', 1); dash != std::string::npos && value[dash - 1] >= '0' && value[dash - 1] <= '9')
        value.replace(dash, 1, " to ");
    if (sign.unit && sign.unit->dimension == Dimension::temperature) {
        for (const std::string_view word : {" degrees", " degree", " deg"}) replace(word, "");
        if (!value.empty() && (value.ends_with("c") || value.ends_with("f"))) {
            const char unit = static_cast<char>(value.back() - 'a' + 'A');
            value.pop_back();
            if (value.ends_with("\u00b0")) value.resize(value.size() - std::string_view("\u00b0").size());
            value = std::string(trimmed(value)) + " \u00b0" + unit;
        }
    }
    return value;
}

bool begins_with_a_figure(std::string_view text) {
    return text.find_first_of("0123456789") != std::string_view::npos && text.size() < 60;
}

}  // namespace

std::string take_doubt(std::string_view& text) {
    static constexpr std::array<std::string_view, 15> before = {
        "maybe ",   "perhaps ", "probably ",  "possibly ",  "i think so, ", "i think ",  "i believe ", "i suppose ",
        "unsure, ", "unsure ",  "not sure, ", "it may be ", "it might be ", "could be ", "likely "};
    static constexpr std::array<std::string_view, 10> after = {" unsure",  ",unsure",   " not sure", " i think",   " maybe",
                                                               " perhaps", " probably", " possibly", " i believe", "?"};
    static constexpr std::array<std::string_view, 4> guess_before = {"i guess ", "i'd guess ", "guess ", "a guess "};
    static constexpr std::array<std::string_view, 4> guess_after = {" a guess", " guess", ",guess", " i guess"};
    std::string doubt;
    for (const auto word : before)
        if (take_front(text, word)) doubt = ",unsure";
    for (const auto word : after)
        if (text.size() > word.size() && take_back(text, word)) doubt = ",unsure";
    for (const auto word : guess_before)
        if (take_front(text, word)) doubt = ",guess";
    for (const auto word : guess_after)
        if (text.size() > word.size() && take_back(text, word)) doubt = ",guess";
    for (const std::string_view word :
         {"it is ", "it's ", "its ", "they are ", "they're ", "theyre ", "there is ", "there's ", "theres ", "there are "})
        if (take_front(text, word)) break;
    return doubt;
}

std::string plain_words(std::string_view text) {
    std::string result;
    for (std::size_t i = 0; i < text.size(); ++i) {
        char c = text[i];
        if (text.substr(i).starts_with("\u2019")) {
            c = '\'';
            i += std::string_view("\u2019").size() - 1;
        }
        if (c == '\t' || c == '\n' || c == '\r') c = ' ';
        if (c == ' ' && (result.empty() || result.back() == ' ')) continue;
        result += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
    while (!result.empty() && (result.back() == ' ' || result.back() == '.' || result.back() == '!' || result.back() == ','))
        result.pop_back();
    return result;
}

std::optional<Wish> read_wish(std::string_view line) {
    const std::string text = plain_words(line);
    for (const auto& [word, what] : wishes)
        if (text == word) return Wish{what, {}};
    std::string_view rest = text;
    if (take_front(rest, "change "))
        for (const std::string_view word : {"answer ", "number ", "no. ", "#"}) take_front(rest, word);
    else
        return std::nullopt;
    if (const auto number = small_number(rest)) return Wish{What::change, number};
    return std::nullopt;
}

Outcome<std::string> read_reply(const Sign& sign, std::string_view line) {
    const std::string plain = plain_words(line);
    // First as it stands: an answer may itself hold "and", "or", a comma or "maybe".
    std::string_view text = plain;
    std::string doubt;
    auto one = named(sign, text);
    if (!one) {
        doubt = take_doubt(text);
        one = named(sign, text);
    }
    const auto value_of = [&](const Named& name) { return (name.negated ? "not " : "") + sign.answers[name.position].id; };
    if (one) return value_of(*one) + doubt;
    if (sign.sort == SignSort::quantity) {
        if (begins_with_a_figure(text)) return measurement(sign, text) + doubt;
    } else {
        if (const auto several = all_named(sign, split(text, {",", ";", "&", "+", " and "}));
            !several.empty() && (sign.sort == SignSort::several || std::ranges::all_of(several, &Named::negated))) {
            std::string value;
            for (const Named& name : several) value += (value.empty() ? "" : ",") + value_of(name);
            return value + doubt;
        }
        const auto either = all_named(sign, split(text, {" or ", "/"}));
        if (either.size() > 1 && sign.sort != SignSort::several && std::ranges::none_of(either, &Named::negated)) {
            std::string value;
            for (std::size_t i = 0; i < sign.answers.size(); ++i)
                if (std::ranges::find(either, i, &Named::position) == either.end())
                    value += (value.empty() ? "not " : ",not ") + sign.answers[i].id;
            if (!value.empty()) return value + doubt;
        }
        // "yes, but only a little": the rest is for whoever reads own words.
        if (sign.sort == SignSort::yes_no && (text.starts_with("yes,") || text.starts_with("no,")))
            return (text.starts_with("yes") ? "yes" : "no") + doubt;
    }
    std::vector<std::string> known;
    for (const Answer& answer : sign.answers) known.push_back(answer.id);
    const std::string hint = text.empty() ? "" : did_you_mean(text, known);
    return Fault{hint, 0};
}

std::optional<std::size_t> read_option(const std::vector<std::string>& options, std::string_view line) {
    const std::string text = plain_words(line);
    if (const auto number = small_number(text); number && *number >= 1 && *number <= options.size()) return *number - 1;
    for (std::size_t i = 0; i < options.size(); ++i)
        if (as_id(options[i]) == as_id(text)) return i;
    if (text.size() < 3) return std::nullopt;
    if (const auto nearest = nearest_name(text, options))
        return static_cast<std::size_t>(std::ranges::find(options, *nearest) - options.begin());
    return std::nullopt;
}

std::string option_mark(const Sign& sign, std::size_t position) {
    return sign.sort == SignSort::quantity ? std::string(1, static_cast<char>('a' + position)) : std::to_string(position + 1);
}

}  // namespace lidlift
