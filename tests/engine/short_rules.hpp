// Rule bases for tests, in few words: what every entry must have is filled in.
#pragma once

#include "engine/answers.hpp"
#include "engine/diagnosis.hpp"
#include "engine/rule_base_reader.hpp"
#include "rules/default_rules.hpp"

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift::test {

/// All complaints, one a line.
inline std::string complaints_of(const std::vector<RuleText>& files) {
    std::string text;
    for (const Complaint& complaint : read_rule_base(files).complaints) text += to_text(complaint) + "\n";
    return text;
}
inline std::string complaints_of(const std::string& yaml) { return complaints_of(std::vector<RuleText>{{"rules.yaml", yaml}}); }

inline RuleBase base_of(const std::vector<RuleText>& files) {
    RuleBaseReading reading = read_rule_base(files);
    if (!reading.complaints.empty()) throw std::runtime_error("the test's own rules are wrong:\n" + complaints_of(files));
    return std::move(reading.rule_base);
}
inline RuleBase base_of(const std::string& yaml) { return base_of(std::vector<RuleText>{{"rules.yaml", yaml}}); }

inline const RuleBase& default_base() {
    static const RuleBase base = base_of(default_rules());
    return base;
}

/// `more` is what stands in the entry's braces beside what is filled in: "seen anyway: sometimes".
class Rules {
public:
    Rules& sign(const std::string& id, const std::string& more = {}) {
        return add(signs_, id, filled(more, {{"ask", "What of " + id}, {"topic", "moisture"}, {"effort", "look"}}), true);
    }
    Rules& conclusion(const std::string& id, const std::string& more = {}) {
        return add(conclusions_, id, filled(more, {{"means", id}}), false);
    }
    Rules& rule(const std::string& id, const std::string& when, const std::string& then) {
        return add(rules_, id, "when: \"" + when + "\", then: " + then + ", because: B of " + id, true);
    }
    Rules& cause(const std::string& id, const std::string& more) {
        return add(causes_, id,
                   filled(more, {{"name", "N of " + id}, {"how common", "common"}, {"because", "B"}, {"look again", "1 day"}}),
                   true);
    }
    Rules& step(const std::string& id, const std::string& more = {}) {
        return add(steps_, id, filled(more, {{"do", "D of " + id}, {"when", "now"}, {"kind", "air"}, {"if wrong", "harmless"}}),
                   true);
    }
    Rules& caution(const std::string& id, const std::string& more = {}) {
        return add(cautions_, id, filled(more, {{"name", "N of " + id}, {"level", "note"}, {"say", "S of " + id}}), true);
    }
    Rules& clash(const std::string& id, const std::string& more) {
        return add(clashes_, id, filled(more, {{"because", "B of " + id}}), true);
    }
    Rules& weighing(const std::string& more) {
        weighing_ = "weighing: {" + more + ", sources: [common_practice]}\n";
        return *this;
    }

    [[nodiscard]] std::string text() const {
        return weighing_ + section("signs", signs_) + section("conclusions", conclusions_) + section("rules", rules_) +
               section("causes", causes_) + section("steps", steps_) + section("cautions", cautions_) +
               section("clashes", clashes_);
    }
    [[nodiscard]] RuleBase base() const { return base_of(text()); }

private:
    struct Key {
        std::string_view key;
        std::string otherwise;
    };

    /// `more`, and every one of `keys` that it does not hold outside of nested braces.
    static std::string filled(const std::string& more, const std::vector<Key>& keys) {
        std::string outside;
        int depth = 0;
        for (const char c : ", " + more) {
            if (c == '{' || c == '[') ++depth;
            if (depth == 0) outside += c;
            if (c == '}' || c == ']') --depth;
        }
        std::string result = more;
        for (const Key& key : keys)
            if (outside.find(", " + std::string(key.key) + ":") == std::string::npos)
                result = std::string(key.key) + ": " + key.otherwise + (result.empty() ? "" : ", ") + result;
        return result;
    }
    Rules& add(std::string& section, const std::string& id, const std::string& inside, bool with_sources) {
        section += "  " + id + ": {" + inside + (with_sources ? ", sources: [common_practice]" : "") + "}\n";
        return *this;
    }
    static std::string section(const std::string& name, const std::string& entries) {
        return entries.empty() ? "" : name + ":\n" + entries;
    }

    std::string signs_, conclusions_, rules_, causes_, steps_, cautions_, clashes_, weighing_;
};

/// Everything that `words` ("sign=value") say; throws where one of them is not understood.
inline Told told_in(const RuleBase& base, const std::vector<std::string>& words) {
    Told told;
    for (const std::string& word : words)
        if (const auto fault = hear_argument(told, base, word)) throw std::runtime_error(word + ": " + fault->text);
    return told;
}
inline Facts facts_in(const RuleBase& base, const std::vector<std::string>& words) { return told_in(base, words).facts; }

inline Diagnosis diagnosed(const RuleBase& base, const std::vector<std::string>& words) {
    return diagnose(Ranker(base), told_in(base, words));
}

template <class T>
std::string id_of(const Catalogue<T>& catalogue, Handle<T> handle) {
    return catalogue[handle].id;
}

}  // namespace lidlift::test
