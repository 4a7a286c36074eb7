// The two answers to a yes/no sign, by their position.
#pragma once

#include "engine/condition.hpp"

namespace lidlift::test {

inline constexpr AnswerSet yes = answer_set(0);
inline constexpr AnswerSet no = answer_set(1);

}  // namespace lidlift::test
