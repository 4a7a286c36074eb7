// A recorded call looked at once more: what was said, what the rule base at hand makes of it, how that differs from what was
// advised then, and how the call stands.
#pragma once

#include "engine/call_record.hpp"
#include "engine/diagnosis.hpp"
#include "engine/phrasebook.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift {

/// The caller's own words, once.
struct OwnWords {
    Moment when;
    std::string words;  ///< without what looks like a telephone number or an address
    bool news = false;  ///< at a follow-up
};

/// What was advised then and is not now, or the other way round. Names are as recorded then, ids of the rule base now.
struct SinceTheAdvice {
    std::string first_then;  ///< the cause that was thought of first; empty: none
    std::vector<std::string> steps_gone, steps_new;
    std::vector<std::string> cautions_gone, cautions_new;
};

/// How a call stands.
enum class CallStage {
    asking,     ///< nothing was advised yet
    advised,    ///< the advice stands, and nobody called again
    follow_up,  ///< taken up again after advice, and not closed
    closed
};

struct CallSummary {
    Moment begun;
    Moment told_until;  ///< when something was last said of the bed, or advised on it
    Moment last;        ///< when anything was last written down
    CallStage stage = CallStage::asking;
    std::string rule_base, version;  ///< as recorded
    bool other_rules = false;        ///< they are not those at hand
    std::string tank;                ///< the path of a tank's record, as recorded

    std::vector<OwnWords> own_words;
    std::vector<std::string> misfits;  ///< recorded answers that the rule base at hand does not know
    Diagnosis diagnosis;               ///< by the rule base at hand
    std::string first_now;             ///< the cause that is thought of first; empty: none

    std::optional<Moment> advised;  ///< when advice was last given
    bool told_since = false;        ///< answers came after that
    std::optional<SinceTheAdvice> since;
    std::optional<Moment> look_again;  ///< counted from the last advice, or from what was said last

    std::optional<FollowUp::Done> done;      ///< of the last follow-up
    std::optional<FollowUp::Helped> helped;  ///< the same
    std::optional<ConfirmedCause> confirmed;
};

/// The tank that a call is about; what its record tells is taken as of the day on which the call was last advised on.
struct CallTank {
    TankRecord record;
    std::optional<std::size_t> bay;  ///< none: the one that is probably meant
};

[[nodiscard]] CallSummary summary_of(const CallRecord& record, const Ranker& ranker, const Phrasebook& phrasebook,
                                     std::optional<CallTank> tank = {});

}  // namespace lidlift
