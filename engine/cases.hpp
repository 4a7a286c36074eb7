// Recorded cases: what was said about a bed, and what the advice for it must be. The format is described in rules/CASES.md.
//
// A case as written knows no rule base, so that one file of cases can be read once and be tried under several.
#pragma once

#include "engine/answers.hpp"
#include "engine/complaint.hpp"
#include "engine/phrasebook.hpp"
#include "engine/rule_base.hpp"
#include "engine/rule_base_reader.hpp"
#include "engine/yaml_tree.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace lidlift {

inline constexpr std::size_t largest_cases = 8 * 1024 * 1024;  ///< bytes, all case files together
inline constexpr std::size_t most_cases = 10'000;
inline constexpr std::size_t most_names = 100;  ///< in one list of a case

enum class WrittenFrom { published_guidance, trade, recorded_call };
[[nodiscard]] const std::vector<std::string>& written_from_words();

/// A name in a case file, and where it stands.
struct WrittenName {
    std::string text;
    Place place;
};

struct WrittenCase {
    std::string id;
    Place place;  ///< of the name; its file is the case's topic
    std::string story;
    YamlNode told;      ///< a map: sign to answer, as `signs` of an answer file; perhaps empty
    std::string words;  ///< the caller's own; perhaps empty
    std::vector<WrittenName> expect;
    std::vector<WrittenName> acceptable;
    bool nothing_listed = false;  ///< "nothing listed" must be likelier than every cause
    std::vector<WrittenName> must_say;
    std::vector<WrittenName> must_advise;
    std::vector<WrittenName> never_advise;
    WrittenFrom written_from = WrittenFrom::trade;
    std::vector<WrittenName> sources;

    /// Something is asked about which cause comes first.
    [[nodiscard]] bool asks_about_causes() const { return nothing_listed || !expect.empty(); }
};

/// Every case of every file, in the order of the files. Mistakes that show without a rule base become complaints.
[[nodiscard]] std::vector<WrittenCase> read_cases(std::span<const RuleText> files, Complaints& complaints);

/// What a case names, in one rule base; nothing where the rule base does not have it.
template <class T>
struct Named {
    std::string id;
    std::optional<Handle<T>> handle;
};

struct NeverAdvised {
    std::string written;
    StepGroup group;
};

/// A case in the terms of one rule base.
struct Case {
    Told told;
    std::vector<std::string> unread;          ///< keys of `told` that this rule base cannot take
    std::vector<std::string> not_understood;  ///< of the caller's own words
    std::vector<Named<Cause>> expect;
    std::vector<Named<Cause>> acceptable;
    std::vector<Named<Caution>> must_say;
    std::vector<Named<Step>> must_advise;
    std::vector<NeverAdvised> never_advise;
};

/// Puts cases into the terms of one rule base, which it refers to.
class CaseResolver {
public:
    explicit CaseResolver(const RuleBase& rule_base) : rule_base_(rule_base) {}

    /// What the rule base does not know becomes a complaint; the rest of the case is resolved all the same.
    [[nodiscard]] Case resolve(const WrittenCase& written, Complaints& complaints);

private:
    const RuleBase& rule_base_;
    std::optional<Phrasebook> phrasebook_;  ///< made when the first case brings words
};

}  // namespace lidlift
