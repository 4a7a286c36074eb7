// Short ways to look at a piece of advice.
#pragma once

#include "engine/advice.hpp"
#include "tests/engine/short_rules.hpp"

#include <algorithm>
#include <optional>
#include <string>
#include <vector>

namespace lidlift::test {

/// A rule base, what somebody told, and the advice for it.
struct Plan {
    RuleBase base;
    Diagnosis diagnosis;

    Plan(const Rules& rules, const std::vector<std::string>& words) : base(rules.base()), diagnosis(diagnosed(base, words)) {}

    [[nodiscard]] const Advice& advice() const { return diagnosis.advice; }
    [[nodiscard]] Verdict verdict() const { return advice().verdict; }
    [[nodiscard]] std::vector<std::string> shown() const {
        std::vector<std::string> ids;
        for (const PlannedStep& planned : advice().steps) ids.push_back(id_of(base.steps, planned.step));
        return ids;
    }
    [[nodiscard]] bool shows(const std::string& step) const {
        const auto ids = shown();
        return std::find(ids.begin(), ids.end(), step) != ids.end();
    }
    [[nodiscard]] std::vector<std::string> checks(const std::string& step) const {
        for (const PlannedStep& planned : advice().steps)
            if (id_of(base.steps, planned.step) == step) return planned.check_first;
        return {"the step is not shown"};
    }
    [[nodiscard]] std::optional<LeftOutStep> left_out(const std::string& step) const {
        for (const LeftOutStep& out : advice().left_out)
            if (id_of(base.steps, out.step) == step) return out;
        return std::nullopt;
    }
    [[nodiscard]] bool leaves_out(const std::string& step, LeftOutStep::Why why) const {
        const auto out = left_out(step);
        return out && out->why == why && !shows(step);
    }
    [[nodiscard]] std::vector<std::string> cautions() const {
        std::vector<std::string> ids;
        for (const auto caution : advice().cautions) ids.push_back(id_of(base.cautions, caution));
        return ids;
    }
    [[nodiscard]] std::vector<std::string> acted_on() const {
        std::vector<std::string> ids;
        for (const auto cause : advice().acted_on) ids.push_back(id_of(base.causes, cause));
        return ids;
    }
    [[nodiscard]] std::vector<std::string> to_find_out() const {
        std::vector<std::string> ids;
        for (const FindOut& item : advice().find_out) ids.push_back(id_of(base.signs, item.sign));
        return ids;
    }
};

using Ids = std::vector<std::string>;

/// A cause with one sign of its own, `s_ID`, that makes it `chance` likely when seen: 31 %, 78 % or 89 %.
enum class Likely { little, rather, very };
inline Rules& with_cause(Rules& rules, const std::string& id, Likely likely, const std::string& more) {
    const std::string background = likely == Likely::little ? "sometimes" : "almost never";
    const std::string common = likely == Likely::very ? "very common" : "common";
    rules.sign("s_" + id, "seen anyway: " + background);
    return rules.cause(id, "how common: " + common + ", signs: [{when: s_" + id + ", seen: usually}], " + more);
}

}  // namespace lidlift::test
