// The follow-up to a call that ended with advice: what was done, whether it helped, what it was in the end.
#pragma once

#include "engine/call/shown.hpp"
#include "engine/call/so_far.hpp"

#include <string_view>
#include <vector>

namespace lidlift {

class FollowUpTalk {
public:
    /// Finds the place where the talk stands by the record: a follow-up that was broken off goes on after its last answer.
    /// False: the call itself went on since the last advice.
    [[nodiscard]] bool begin(const CallSoFar& call);

    [[nodiscard]] shown::AskFollowUp question() const;

    enum class Then { ask, not_understood, tell_what_is_new, close };
    /// The answer to the question. What it says is added to the call.
    [[nodiscard]] Then hear(std::string_view line, Moment now, CallSoFar& call);

private:
    [[nodiscard]] Then hear_cause(std::string_view line, Moment now, CallSoFar& call);
    [[nodiscard]] Then after_the_cause(const CallSoFar& call);

    shown::FollowUpQuestion question_ = shown::FollowUpQuestion::done;
    ConfirmedCause confirmed_;
    std::vector<Handle<Cause>> offered_;
};

/// The trouble was over when it was last asked after.
[[nodiscard]] bool is_solved(const CallRecord& record);

}  // namespace lidlift
