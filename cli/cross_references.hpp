// Who speaks of whom in a rule base, looked up from the other end: for every entry, the entries that lean on it.
#pragma once

#include "engine/rule_base.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace lidlift::cli {

/// Entries that mention something, each once, in the order of the rule base.
struct Mentioners {
    std::vector<Handle<Rule>> rules;
    std::vector<Handle<Cause>> causes;
    std::vector<Handle<Step>> steps;
    std::vector<Handle<Caution>> cautions;
    std::vector<Handle<Clash>> clashes;
    std::vector<Handle<Material>> materials;
    [[nodiscard]] bool empty() const {
        return rules.empty() && causes.empty() && steps.empty() && cautions.empty() && clashes.empty() && materials.empty();
    }
};

/// One entry that rests on a source. `kind` is "sign", "rule", "cause", "step", "caution", "clash", "material", or "section"
/// for the section `weighing`.
struct Resting {
    std::string kind;
    std::string id;
    std::vector<std::string>
        parts;           ///< conditions of a cause's lines, or figures of a material, that name the source for themselves
    bool alone = false;  ///< the entry as a whole names no other source
};

struct CrossReferences {
    explicit CrossReferences(const RuleBase& rule_base);

    std::vector<Mentioners> of_sign;                            ///< by sign: whose conditions mention it, or who asks for it
    std::vector<Mentioners> of_conclusion;                      ///< by conclusion: whose conditions mention it
    std::vector<std::vector<Handle<Cause>>> asking_for;         ///< by step: causes
    std::vector<std::vector<Handle<Clash>>> keeping_off;        ///< by step: clashes that match it
    std::vector<std::vector<Handle<Cause>>> with_caution;       ///< by caution: causes
    std::vector<std::vector<Handle<Step>>> steps_with_caution;  ///< by caution: steps
    std::vector<std::vector<Handle<Step>>> measuring;           ///< by material: steps that measure it out
    std::vector<std::vector<Handle<Material>>> materials_with_caution;  ///< by caution: materials
    std::vector<std::vector<Handle<Cause>>> avoiding;                   ///< by clash: causes that name it
    std::vector<std::vector<Handle<Cause>>> roots;                      ///< by cause: causes that bring it about
    std::vector<std::vector<Handle<Cause>>> look_alikes;                ///< by cause: those it names or is named by
    std::vector<std::vector<Handle<Cause>>> apart;  ///< by cause: those never together with it, by either's word
    std::vector<std::vector<Resting>> resting_on;   ///< by source
};

/// "12 causes, 1 step", in the order sign, rule, cause, step, caution, clash, material, section; empty for none.
[[nodiscard]] std::string counted(const std::vector<Resting>& resting);

}  // namespace lidlift::cli
