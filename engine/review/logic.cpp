#include "engine/review/logic.hpp"

namespace lidlift {

void review_logic(const RuleBase&, std::vector<ReviewFinding>&) {}

}  // namespace lidlift
