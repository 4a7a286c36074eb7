// What the caller said that may mean several things, and is not settled yet.
#pragma once

#include "engine/call/so_far.hpp"
#include "engine/open_question.hpp"
#include "engine/phrasebook.hpp"

#include <optional>

namespace lidlift {

/// With the one sign of it to ask next. It is settled once one of its signs has an answer that is out of the ordinary.
[[nodiscard]] std::optional<OpenQuestion> left_open(const CallSoFar& call, const Phrasebook& phrasebook);

}  // namespace lidlift
