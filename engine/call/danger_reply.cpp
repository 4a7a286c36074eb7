#include "engine/call/danger_reply.hpp"

#include "engine/call/so_far.hpp"
#include "engine/contains.hpp"
#include "engine/spoken_reply.hpp"

#include <algorithm>
#include <optional>

namespace lidlift {
namespace {

/// "not up_walls_lid"; of a yes/no sign the other answer.
std::string denial(const Sign& sign, std::size_t answer) {
    if (sign.sort == SignSort::yes_no) return sign.answers[1 - answer].id;
    return "not " + sign.answers[answer].id;
}

bool denies_them_all(const std::string& text) {
    static const std::vector<std::string> none = {"none",
                                                  "no",
                                                  "n",
                                                  "nope",
                                                  "nobody",
                                                  "nothing",
                                                  "0",
                                                  "no one",
                                                  "neither",
                                                  "all well",
                                                  "none of these",
                                                  "none of them",
                                                  "nah",
                                                  "not",
                                                  "all fine",
                                                  "no none",
                                                  "no nothing like it"};
    return contains(none, text);
}

/// Positions named by numbers, with commas, blanks or "and" between them; empty: the text is not that.
std::vector<std::size_t> numbers_in(std::string text, std::size_t options) {
    std::ranges::replace(text, ',', ' ');
    std::vector<std::size_t> chosen;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        const std::string word = text.substr(begin, end - begin);
        begin = end + 1;
        if (word.empty() || word == "and") continue;
        const auto option = read_option(std::vector<std::string>(options), word);
        if (!option) return {};
        chosen.push_back(*option);
    }
    return chosen;
}

/// The question after dangers, with nothing heard yet.
CallEntry asked_after(const RuleBase& base, const std::vector<RedFlag>& flags, std::string_view words, Moment now) {
    CallEntry entry{.kind = CallEntry::Kind::safety, .when = now, .words = without_numbers_of_people(words)};
    for (const RedFlag& flag : flags)
        if (const std::string& id = base.signs[flag.sign].id; !contains(entry.signs, id)) entry.signs.push_back(id);
    return entry;
}

}  // namespace

DangerReply read_danger_reply(const RuleBase& base, const Phrasebook& phrasebook, const std::vector<RedFlag>& flags,
                              std::string_view line, Moment now) {
    using Spoke = DangerReply::Spoke;
    DangerReply reply{Spoke::some_of_them, asked_after(base, flags, line, now)};
    std::vector<RecordedAnswer>& heard = reply.entry.heard;
    const auto deny = [&] {
        for (const RedFlag& flag : flags)
            heard.push_back({base.signs[flag.sign].id, denial(base.signs[flag.sign], flag.answer), Sureness::sure, {}});
    };
    const std::string text = plain_words(line);
    // Whoever is not certain of a danger tells of it all the same.
    std::string_view named = text;
    const std::string doubt = take_doubt(named);
    const auto name = [&](const RedFlag& flag) {
        const Sign& sign = base.signs[flag.sign];
        heard.push_back(recorded(sign.id, sign.answers[flag.answer].id + doubt, {}));
    };
    if (denies_them_all(text)) {
        deny();
        reply.says = Spoke::none_of_them;
        return reply;
    }
    const bool only_yes = named == "yes" || named == "y";
    if (flags.size() == 1 && only_yes) {
        name(flags.front());
        return reply;
    }
    reply.which_one = only_yes;
    if (const auto chosen = numbers_in(std::string(named), flags.size()); !chosen.empty()) {
        for (const std::size_t position : chosen) name(flags[position]);
        return reply;
    }
    Understanding understanding = phrasebook.read(line);
    for (const Reading& reading : understanding.readings)
        heard.push_back(recorded(base.signs[reading.sign].id, reading.value, reading.words));
    if (std::ranges::any_of(heard, [&](const RecordedAnswer& answer) { return contains(reply.entry.signs, answer.sign); }))
        return reply;
    if (text.starts_with("no,")) {
        deny();
        return reply;
    }
    reply.says = heard.empty() ? Spoke::nothing : Spoke::something_else;
    reply.entry.kind = CallEntry::Kind::words;
    reply.entry.signs.clear();
    reply.not_used = std::move(understanding.not_understood);
    return reply;
}

CallEntry dangers_not_known(const RuleBase& base, const std::vector<RedFlag>& flags, Moment now) {
    CallEntry entry = asked_after(base, flags, "don't know", now);
    for (const std::string& id : entry.signs) entry.heard.push_back({id, "?", Sureness::sure, {}});
    return entry;
}

}  // namespace lidlift
