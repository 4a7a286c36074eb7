#include "engine/review/phrases.hpp"

#include "engine/hearing/phrase_index.hpp"
#include "engine/plain_text.hpp"
#include "engine/review/kinds.hpp"

#include <algorithm>
#include <string>
#include <unordered_map>

namespace lidlift {
namespace {

struct Owner {
    const Sign* sign = nullptr;
    const Answer* answer = nullptr;
};

}  // namespace

void review_phrases(const RuleBase& rule_base, std::vector<ReviewFinding>& findings) {
    std::unordered_map<std::string, Owner> owners;
    for (const Sign& sign : rule_base.signs) {
        for (const Answer& answer : sign.answers) {
            for (const std::string& phrase : answer.heard_as) {
                const auto words = hearing::words_of_phrase(phrase);
                if (words.empty()) {
                    ReviewFinding finding = finding_of("phrase_never_heard", sign.place);
                    finding.about = {sign.id};
                    finding.text =
                        "the phrase " + quoted(phrase) + " for " + quoted(sign.id + "=" + answer.id) + " holds no word";
                    finding.mend = "write what a caller would say";
                    findings.push_back(std::move(finding));
                    continue;
                }
                const auto [owner, is_new] = owners.try_emplace(hearing::join(words), Owner{&sign, &answer});
                if (is_new || owner->second.answer == &answer) continue;
                ReviewFinding finding = finding_of("phrase_for_two", sign.place);
                finding.about = {sign.id};
                if (owner->second.sign != &sign) finding.about.push_back(owner->second.sign->id);
                finding.text = "the phrase " + quoted(phrase) + " stands for " + quoted(sign.id + "=" + answer.id) +
                               " and for " + quoted(owner->second.sign->id + "=" + owner->second.answer->id) +
                               ", so it is not heard at all";
                finding.mend = "keep it where it means most, or write it under 'perhaps heard as' of both";
                findings.push_back(std::move(finding));
            }
        }
    }
}

}  // namespace lidlift
