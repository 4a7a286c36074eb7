// Everyday words that are no slip of the finger for a word of a phrase: "doing" is not "dying".
#pragma once

#include "engine/hearing/sayings.hpp"

namespace lidlift::hearing {

/// Single words of five letters or more, spelled as caller_text spells them.
[[nodiscard]] const Sayings& everyday_words();

}  // namespace lidlift::hearing
