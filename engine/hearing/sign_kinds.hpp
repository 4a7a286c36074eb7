// Kinds of signs that are heard in their own ways.
#pragma once

#include "engine/rule_base.hpp"

namespace lidlift::hearing {

/// Does the sign tell of something wrong, rather than of feeding, keeping or people?
[[nodiscard]] bool is_trouble(const Sign& sign);

/// Does it tell when the trouble began? "For weeks" and "last night" may be said of anything else too.
[[nodiscard]] bool tells_a_beginning(const Sign& sign);

}  // namespace lidlift::hearing
