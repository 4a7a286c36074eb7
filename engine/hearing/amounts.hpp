// How much of it there is: the amount that stands around a phrase, and the answer that it leads to.
#pragma once

#include "engine/hearing/surroundings.hpp"

namespace lidlift::hearing {

/// None when the sign tells amounts apart and has no phrase for this one.
[[nodiscard]] std::optional<std::size_t> answer_with_amount(const Surroundings& phrase, const PhraseIndex& phrases);

}  // namespace lidlift::hearing
