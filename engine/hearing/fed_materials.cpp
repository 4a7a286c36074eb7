#include "engine/hearing/fed_materials.hpp"

#include "engine/hearing/little_words.hpp"
#include "engine/hearing/stems.hpp"

#include <algorithm>

namespace lidlift::hearing {
namespace {

/// The answer to a sign of feed that a material without an amount leads to.
constexpr std::string_view some_of_it = "some";
/// Words between the verb and the material: "put in a whole lot of old bread".
constexpr std::size_t farthest_from_verb = 6;
/// Words between the material and where it is: "pizza and macaroni that someone had put in".
constexpr std::size_t farthest_from_place = 6;

bool is_feeding_verb(std::string_view word) {
    static const Sayings verbs(
        "add|added|adding|put|putting|give|gave|given|giving|feed|fed|feeding|throw|threw|thrown|throwing|tip|tipped|dumped|"
        "dump|"
        "chucked|chuck|popped|buried");
    return verbs.has(word);
}

/// "Pizza that someone had put in", "raw chicken in it": words [at, ...) say that what was named just before is in the bed.
bool is_in_the_bed(Words words, std::size_t at) {
    static const Sayings there("in it|in there|in bin|in my bin|in our bin|in bed|in tank|in worm bin|in compost");
    static const Sayings put_in("put in|thrown in|chucked in|tipped in|dropped in|went in|gone in|goes in|got in|ended up in");
    if (at < words.size() && there.stands_at(words, at)) return true;
    for (std::size_t i = at; i < words.size() && i <= at + farthest_from_place; ++i) {
        if (english().negators.has(words[i].text)) return false;
        if (put_in.stands_at(words, i)) return true;
    }
    return false;
}

}  // namespace

FedMaterials::FedMaterials(const RuleBase& rule_base) {
    for (const Material& material : rule_base.materials) {
        std::vector<Meaning> meanings;
        for (const Handle<Sign> sign : material.shares) {
            const auto& answers = rule_base.signs[sign].answers;
            const auto some = std::ranges::find(answers, some_of_it, &Answer::id);
            if (some == answers.end()) continue;
            meanings.push_back({.sign = sign,
                                .answer = static_cast<std::size_t>(some - answers.begin()),
                                .of_material = true,
                                .phrase = material.id});
        }
        if (meanings.empty()) continue;
        const std::size_t first = meanings_.size();
        meanings_.insert(meanings_.end(), meanings.begin(), meanings.end());
        for (const std::string& text : material.heard_as) {
            Name name{{}, first, meanings_.size()};
            for (const Word& word : words_of_phrase(text)) name.stems.push_back(stem_of(word.text));
            if (!name.stems.empty()) names_[name.stems.front()].push_back(std::move(name));
        }
    }
}

const FedMaterials::Name* FedMaterials::longest_at(Words words, std::size_t at) const {
    const auto found = names_.find(stem_of(words[at].text));
    if (found == names_.end()) return nullptr;
    const Name* longest = nullptr;
    for (const Name& name : found->second) {
        if (name.stems.size() > words.size() - at || (longest && longest->stems.size() >= name.stems.size())) continue;
        if (std::ranges::equal(name.stems, words.subspan(at, name.stems.size()), {}, {},
                               [](const Word& word) { return stem_of(word.text); }))
            longest = &name;
    }
    return longest;
}

std::vector<Match> FedMaterials::matches(Words words) const {
    std::vector<Match> result;
    std::size_t after_verb = farthest_from_verb + 1;
    std::size_t after_name = words.size();
    for (std::size_t at = 0; at < words.size(); ++at, ++after_verb) {
        // What was thrown out was not fed.
        static const Sayings away("out|away|off");
        if (is_feeding_verb(words[at].text) && (at + 1 == words.size() || !away.has(words[at + 1].text))) {
            after_verb = 0;
            continue;
        }
        const Name* name = longest_at(words, at);
        if (name == nullptr) continue;
        const std::size_t last = at + name->stems.size();
        if (after_verb > farthest_from_verb && !is_in_the_bed(words, last)) continue;
        // "Fruit leftovers" are no leftovers of meals.
        const bool form_of_the_last = at == after_name;
        // A phrase that says more of the same words counts for more.
        for (std::size_t i = name->first_meaning; i < name->last_meaning && !form_of_the_last; ++i)
            result.push_back({at, last, &meanings_[i], 2 * name->stems.size() - 1});
        after_verb = 0;  // a list of materials goes on
        after_name = last;
        at = last - 1;
    }
    return result;
}

}  // namespace lidlift::hearing
