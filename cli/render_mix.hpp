// A mixture and what to add to it -> a page for people, dangers first.
#pragma once

#include "cli/page.hpp"
#include "engine/mix_advice.hpp"

#include <string>

namespace lidlift::cli {

/// What was asked and what came out, for the page and for the JSON.
struct MixPage {
    const RuleBase& rule_base;
    const MixQuestion& question;
    const Vessels& vessels;  ///< amounts to add are told in these too
    const MixAnswer& answer;
};

[[nodiscard]] std::string render_mix(const MixPage& page, const Screen& screen = {});

}  // namespace lidlift::cli
