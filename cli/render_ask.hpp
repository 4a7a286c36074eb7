// What an interview shows, in words that can be read out: short sentences, one thing at a time, nothing drawn.
#pragma once

#include "cli/page.hpp"
#include "engine/interview.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

struct AskPage {
    Screen screen = {};
    std::string record = {};  ///< the file of the call record; empty: nothing is written down
};

/// The greeting before the first question.
[[nodiscard]] std::string render_greeting(const AskPage& page);

[[nodiscard]] std::string render_shown(const Interview& interview, const std::vector<Shown>& shown, const AskPage& page);

/// How a call goes on from its record, as it would be typed.
[[nodiscard]] std::string how_to_go_on(const std::string& record, bool follow_up);

/// How its sheet is made; `full` with nothing cut.
[[nodiscard]] std::string how_to_hand_over(const std::string& record, bool full);

}  // namespace lidlift::cli
