#include "engine/review/reviewed.hpp"

#include "engine/review/kinds.hpp"

#include <algorithm>
#include <map>
#include <utility>

namespace lidlift {
namespace {

using Key = std::pair<std::string, std::vector<std::string>>;

Key key_of(const std::string& kind, std::vector<std::string> about) {
    std::ranges::sort(about);
    about.erase(std::unique(about.begin(), about.end()), about.end());
    return {kind, std::move(about)};
}

std::string listed(const std::vector<std::string>& ids) {
    std::string text;
    for (const std::string& id : ids) text += (text.empty() ? "'" : ", '") + id + "'";
    return text;
}

}  // namespace

void apply_reviewed(const RuleBase& rule_base, std::vector<ReviewFinding>& findings) {
    std::map<Key, std::vector<std::size_t>> advice;
    for (std::size_t i = 0; i < findings.size(); ++i)
        if (findings[i].level == FindingLevel::advice) advice[key_of(findings[i].kind, findings[i].about)].push_back(i);
    for (const Reviewed& reviewed : rule_base.reviewed) {
        const auto found = advice.find(key_of(reviewed.kind, reviewed.about));
        if (found != advice.end()) {
            for (const std::size_t i : found->second) findings[i].answered_because = reviewed.because;
            continue;
        }
        ReviewFinding finding = finding_of("stale_review", reviewed.place);
        finding.about = reviewed.about;
        finding.text =
            "there is no advice of the kind " + reviewed.kind + " about " + listed(reviewed.about) + " that this could answer";
        finding.mend = "take the answer out, or name the entries that the advice names";
        findings.push_back(std::move(finding));
    }
}

}  // namespace lidlift
