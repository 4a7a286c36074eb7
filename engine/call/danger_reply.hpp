// What a reply to the question after dangers says: none of them, some of them by number or in own words, or something else.
#pragma once

#include "engine/call_record.hpp"
#include "engine/phrasebook.hpp"
#include "engine/red_flags.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

struct DangerReply {
    enum class Spoke {
        none_of_them,
        some_of_them,
        something_else,  ///< what it tells is in the entry, which is then one of own words; the question still stands
        nothing          ///< that could be understood
    };
    Spoke says = Spoke::nothing;
    CallEntry entry;
    std::vector<std::string> not_used = {};  ///< of something else
    bool which_one = false;                  ///< yes to several of them
};

[[nodiscard]] DangerReply read_danger_reply(const RuleBase& rule_base, const Phrasebook& phrasebook,
                                            const std::vector<RedFlag>& flags, std::string_view line, Moment now);

/// Nobody there can tell.
[[nodiscard]] CallEntry dangers_not_known(const RuleBase& rule_base, const std::vector<RedFlag>& flags, Moment now);

}  // namespace lidlift
