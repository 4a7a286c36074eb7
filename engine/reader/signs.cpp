// The section "signs".
#include "engine/condition_grammar.hpp"
#include "engine/nearest_name.hpp"
#include "engine/quantity.hpp"
#include "engine/reader/sections.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <utility>

namespace lidlift::reader {
namespace {

const std::string the_rest = "the rest";

/// "seen anyway: sometimes"; `rest` is set for "the rest".
std::optional<double> read_background(Entry& entry, bool rest_allowed, bool& rest) {
    const YamlNode* node = entry.node("seen anyway");
    if (!node) return std::nullopt;
    if (rest_allowed && node->text == the_rest) {
        rest = true;
        return std::nullopt;
    }
    std::vector<std::string> words = frequency_words();
    if (rest_allowed) words.push_back(the_rest);
    const auto word = read_word(*node, words, entry.complaints());
    return word ? frequency(words[*word]) : std::nullopt;
}

class SignReader {
public:
    SignReader(const NamedEntry& named, Sign& sign, const RuleBase& rule_base, Complaints& complaints)
        : named_(named), sign_(sign), rule_base_(rule_base), entry_(named.value, "the sign '" + named.id + "'", complaints) {}

    void read() {
        sign_.name = entry_.text("name");
        if (sign_.name.empty()) sign_.name = spoken(sign_.id);
        sign_.ask = entry_.text("ask", Need::required);
        sign_.check = entry_.text("check");
        sign_.topic = entry_.text("topic", Need::required);
        if (const auto effort = entry_.word("effort", effort_words(), Need::required))
            sign_.effort = static_cast<Effort>(*effort);
        static const std::vector<std::string> hard = {"no", "perhaps", "yes"};
        static constexpr double do_not_know[] = {0.02, 0.15, 0.40};
        if (const auto word = entry_.word("hard to tell", hard)) sign_.hard_to_tell = do_not_know[*word];
        sign_.same_observation = entry_.text("same observation");
        sign_.heard_in_questions = entry_.yes_no("heard in questions");
        sign_.narrowed_by = read_names(entry_, "narrowed by", rule_base_.signs, "sign");
        sign_.sources = read_sources(entry_, rule_base_);
        if (entry_.node("measured in"))
            read_quantity_sign();
        else
            read_answered_sign();
        entry_.finish();
    }

private:
    static std::string spoken(std::string id) {
        std::ranges::replace(id, '_', ' ');
        return id;
    }

    void read_answered_sign() {
        const bool several = entry_.yes_no("several at once");
        const YamlNode* answers = entry_.node("answers");
        if (answers && !answers->cut_off && answers->entries.empty()) {
            entry_.complain(answers->place, "'answers' should be a map of two or more answers");
            return;
        }
        if (!answers || is_yes_no(*answers)) {
            if (several) entry_.complain(named_.place, "a yes/no sign cannot have several answers at once");
            read_yes_no_sign(answers);
            return;
        }
        sign_.sort = several ? SignSort::several : SignSort::one_of;
        if (answers->kind != YamlNode::Kind::map || answers->entries.size() < 2) {
            entry_.complain(answers->place, "'answers' should be a map of two or more answers");
            return;
        }
        for (const YamlEntry& answer : answers->entries) add_answer(answer);
        if (sign_.sort == SignSort::one_of)
            share_out(answers->place);
        else
            check_none_of_these(*answers);
    }

    static bool is_yes_no(const YamlNode& answers) {
        return std::ranges::all_of(answers.entries, [](const YamlEntry& e) { return e.key == "yes" || e.key == "no"; });
    }

    void read_yes_no_sign(const YamlNode* answers) {
        sign_.sort = SignSort::yes_no;
        sign_.answers = {{.id = "yes", .means = {}, .seen_anyway = {}, .below = {}, .heard_as = {}, .perhaps_heard_as = {}},
                         {.id = "no", .means = {}, .seen_anyway = {}, .below = {}, .heard_as = {}, .perhaps_heard_as = {}}};
        bool rest = false;
        const auto background = read_background(entry_, false, rest);
        if (background) {
            sign_.answers[0].seen_anyway = background;
            sign_.answers[1].seen_anyway = 1 - *background;
        }
        if (!answers) return;
        for (const YamlEntry& given : answers->entries) {
            Entry entry(given.value, "the answer '" + given.key + "' of '" + sign_.id + "'", entry_.complaints());
            Answer& answer = sign_.answers[given.key == "yes" ? 0 : 1];
            answer.means = entry.text("means");
            answer.heard_as = entry.texts("heard as");
            answer.perhaps_heard_as = entry.texts("perhaps heard as");
            entry.finish();
        }
    }

    void read_quantity_sign() {
        sign_.sort = SignSort::quantity;
        const std::string unit = entry_.text("measured in", Need::required);
        sign_.unit = find_unit(unit);
        if (!sign_.unit) {
            if (!unit.empty()) entry_.complain(entry_.node("measured in")->place, read_quantity("1 " + unit).fault().text);
            sign_.unit = find_unit("plain");
        }
        if (const YamlNode* plausible = entry_.node("plausible", Need::required)) read_plausible(*plausible);
        const YamlNode* bands = entry_.node("bands");
        if (!bands) return;
        if (bands->kind != YamlNode::Kind::map || bands->entries.size() < 2) {
            entry_.complain(bands->place, "'bands' should be a map of two or more bands");
            return;
        }
        for (const YamlEntry& band : bands->entries) add_answer(band);
        check_bands(*bands);
        share_out(bands->place);
    }

    void read_plausible(const YamlNode& node) {
        const auto to = node.text.find(" to ");
        const auto low = to == std::string::npos ? std::nullopt : read_number(std::string_view(node.text).substr(0, to));
        const auto high = to == std::string::npos ? std::nullopt : read_number(std::string_view(node.text).substr(to + 4));
        if (low && high && *low < *high)
            sign_.plausible = {.low = *low, .high = *high};
        else
            entry_.complain(node.place,
                            "'plausible' should be two rising numbers such as '-20 to 90', found '" + node.text + "'");
    }

    void add_answer(const YamlEntry& given) {
        if (!is_id(given.key)) {
            entry_.complain(
                given.key_place,
                "'" + given.key + "' cannot name an answer: lower-case letters, digits and '_', beginning with a letter");
            return;
        }
        if (is_word_of_the_language(given.key)) {
            entry_.complain(given.key_place, "'" + given.key + "' is a word of the conditions and cannot name an answer");
            return;
        }
        if (sign_.answers.size() == most_answers) {
            entry_.complain(given.key_place, "a sign can have 64 answers at most");
            return;
        }
        Entry entry(given.value, "the answer '" + given.key + "' of '" + sign_.id + "'", entry_.complaints());
        Answer answer;
        answer.id = given.key;
        answer.means = entry.text("means", sign_.sort == SignSort::quantity ? Need::optional : Need::required);
        answer.heard_as = entry.texts("heard as");
        answer.perhaps_heard_as = entry.texts("perhaps heard as");
        answer.seen_anyway = read_background(entry, sign_.sort != SignSort::several, answer.the_rest);
        if (sign_.sort == SignSort::quantity) answer.below = entry.number("below");
        if (sign_.sort == SignSort::several) answer.none_of_these = entry.yes_no("none of these");
        if (answer.none_of_these && answer.seen_anyway)
            entry.complain(given.key_place, "'" + given.key + "' rules out the other answers, so it takes no 'seen anyway'");
        entry.finish();
        sign_.answers.push_back(std::move(answer));
    }

    void check_none_of_these(const YamlNode& answers) {
        if (std::ranges::count_if(sign_.answers, &Answer::none_of_these) > 1)
            entry_.complain(answers.place, "only one answer of '" + sign_.id + "' can be 'none of these'");
    }

    void check_bands(const YamlNode& bands) {
        double floor = sign_.plausible.low;
        for (std::size_t i = 0; i < sign_.answers.size(); ++i) {
            const Answer& band = sign_.answers[i];
            const bool last = i + 1 == sign_.answers.size();
            if (last && band.below)
                entry_.complain(bands.place, "the last band '" + band.id + "' reaches to the end, so it takes no 'below'");
            if (!last && !band.below) {
                entry_.complain(bands.place, "the band '" + band.id + "' lacks its 'below'");
                sign_.answers[i].below = floor;
            } else if (!last && (*band.below <= floor || *band.below > sign_.plausible.high)) {
                entry_.complain(bands.place, "the bands of '" + sign_.id + "' should rise within the plausible range; '" +
                                                 band.id + "' does not");
            }
            if (band.below) floor = *band.below;
        }
    }

    /// Gives "the rest" what the other answers leave; either all answers but that one have a background, or none has.
    void share_out(const Place& place) {
        const auto rests = std::ranges::count_if(sign_.answers, &Answer::the_rest);
        const auto given = std::ranges::count_if(sign_.answers, [](const Answer& a) { return a.seen_anyway.has_value(); });
        if (rests == 0 && given == 0) return;
        if (rests != 1 || static_cast<std::size_t>(given + rests) != sign_.answers.size()) {
            entry_.complain(place, "of the answers of '" + sign_.id +
                                       "' one should say 'seen anyway: the rest' and every other one a frequency");
            return;
        }
        double sum = 0;
        for (const Answer& answer : sign_.answers) sum += answer.seen_anyway.value_or(0);
        if (sum >= 1) {
            entry_.complain(place, "the answers of '" + sign_.id + "' are seen anyway in " + number_to_text(sum * 100) +
                                       " % together, which leaves nothing for the rest");
            return;
        }
        std::ranges::find_if(sign_.answers, &Answer::the_rest)->seen_anyway = 1 - sum;
    }

    const NamedEntry& named_;
    Sign& sign_;
    const RuleBase& rule_base_;
    Entry entry_;
};

}  // namespace

void read_sign(const NamedEntry& named, Sign& sign, const RuleBase& rule_base, Complaints& complaints) {
    SignReader(named, sign, rule_base, complaints).read();
}

}  // namespace lidlift::reader
