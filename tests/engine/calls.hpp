// Interviews for tests: a small rule base, a script of typed lines, and what was shown.
#pragma once

#include "engine/interview.hpp"
#include "tests/engine/short_rules.hpp"

#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace lidlift::test {

inline Moment noon() { return {Day(std::chrono::year(2026) / 3 / 9), 12 * 3600}; }

/// Three causes with remedies of their own, told apart by questions of several sorts, and two dangers to people.
inline Rules call_rules() {
    return Rules()
        .sign("smell",
              "answers: {foul: {means: it smells foul, seen anyway: almost never, heard as: [stinks, it reeks]}, "
              "sour: {means: it smells sour, seen anyway: almost never, heard as: [smells of vinegar]}, "
              "fine: {means: it smells of earth, seen anyway: the rest, heard as: [smells fine]}}")
        .sign("wet",
              "seen anyway: sometimes, answers: {yes: {means: it is wet, heard as: [soaking wet, soggy]}, no: {means: it is "
              "not wet, heard as: [quite dry]}}")
        .sign("where",
              "several at once: yes, answers: {walls: {means: on the walls, seen anyway: almost never, heard as: [up the "
              "walls]}, floor: {means: on the floor, seen anyway: almost never}, none: {means: nowhere odd, none of these: "
              "yes}}")
        .sign("warmth",
              "measured in: °C, plausible: -20 to 90, effort: measure, bands: {cool: {below: 30, means: below 30 degrees, "
              "seen anyway: the rest}, warm: {means: 30 degrees or more, seen anyway: sometimes}}")
        .sign("drain", "seen anyway: sometimes, effort: dig, check: Pour a litre in.")
        .sign("fed", "seen anyway: sometimes")
        .sign("hurt",
              "seen anyway: practically never, topic: people, answers: {yes: {means: someone is down, heard as: [someone "
              "collapsed]}, no: {means: nobody is down}}")
        .step("open_drain", "kind: drain")
        .step("feed_less", "kind: feed, strictness: 3")
        .step("cover_it", "kind: care, when: this week")
        .step("call_help", "kind: people")
        .caution("danger", "level: stop, emergency: yes, when: hurt")
        .cause("blocked",
               "signs: [{when: smell is foul, seen: usually}, {when: wet, seen: almost always}, {when: drain, seen: almost "
               "always}], "
               "steps: [open_drain]")
        .cause("overfed",
               "signs: [{when: smell is sour, seen: usually}, {when: smell is foul, seen: sometimes}, {when: fed, seen: almost "
               "always}, {when: warmth is warm, seen: usually}, {when: where is walls, seen: usually}], steps: [feed_less]")
        .cause("uncovered",
               "signs: [{when: where is floor, seen: usually}, {when: wet, seen: usually}, {when: smell is foul, seen: "
               "sometimes}], "
               "steps: [cover_it]");
}

/// One call, line by line.
class TestCall {
public:
    explicit TestCall(RuleBase base, const AskingLimits& limits = {})
        : base_(std::make_unique<RuleBase>(std::move(base))),
          ranker_(std::make_unique<Ranker>(*base_)),
          phrasebook_(std::make_unique<Phrasebook>(*base_)),
          interview_(std::make_unique<Interview>(*ranker_, *phrasebook_, Told{}, limits)) {
        last_ = interview_->begin(noon());
    }
    TestCall(RuleBase base, CallRecord record, bool follow_up = false)
        : base_(std::make_unique<RuleBase>(std::move(base))),
          ranker_(std::make_unique<Ranker>(*base_)),
          phrasebook_(std::make_unique<Phrasebook>(*base_)),
          interview_(std::make_unique<Interview>(*ranker_, *phrasebook_)) {
        last_ = follow_up ? interview_->follow_up(std::move(record), noon()) : interview_->resume(std::move(record), noon());
    }

    TestCall& say(const std::string& line) {
        last_ = interview_->hear(line, noon());
        return *this;
    }
    TestCall& end() {
        last_ = interview_->end_of_input(noon());
        return *this;
    }

    /// The first of that kind that was shown after the last line, or null.
    template <class T>
    [[nodiscard]] const T* shown() const {
        for (const Shown& one : last_)
            if (const auto* found = std::get_if<T>(&one)) return found;
        return nullptr;
    }
    /// The sign that is asked after now; "" when none is.
    [[nodiscard]] std::string asked() const {
        const auto* ask = last_.empty() ? nullptr : std::get_if<shown::AskSign>(&last_.back());
        return ask ? base_->signs[ask->sign].id : "";
    }
    [[nodiscard]] std::string value(const std::string& sign) const {
        const auto handle = base_->signs.find(sign).value();
        const Observation* seen = interview_->told().facts.find(handle);
        if (seen) return as_value(base_->signs[handle], *seen);
        const auto& unknown = interview_->told().not_known;
        return std::find(unknown.begin(), unknown.end(), handle) != unknown.end() ? "?" : "";
    }
    [[nodiscard]] std::optional<StopReason> reason() const {
        const auto* stopped = shown<shown::Stopped>();
        return stopped ? std::optional(stopped->reason) : std::nullopt;
    }
    [[nodiscard]] bool ended() const { return interview_->ended(); }
    [[nodiscard]] const Interview& interview() const { return *interview_; }
    [[nodiscard]] const CallRecord& record() const { return interview_->record(); }
    [[nodiscard]] const std::vector<Shown>& last() const { return last_; }
    [[nodiscard]] const RuleBase& base() const { return *base_; }
    [[nodiscard]] const Ranker& ranker() const { return *ranker_; }

private:
    std::unique_ptr<RuleBase> base_;
    std::unique_ptr<Ranker> ranker_;
    std::unique_ptr<Phrasebook> phrasebook_;
    std::unique_ptr<Interview> interview_;
    std::vector<Shown> last_;
};

}  // namespace lidlift::test
