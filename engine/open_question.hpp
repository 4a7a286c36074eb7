// What a caller said that may mean more than one thing, or one thing of several kinds: to be asked, not assumed.
#pragma once

#include "engine/rule_base.hpp"

#include <string>
#include <vector>

namespace lidlift {

/// "Baby worms" may be young compost worms or potworms; "it stinks" may be ammonia, sewage or vinegar.
struct OpenQuestion {
    std::string words;                ///< what was said, as it was said
    std::vector<Handle<Sign>> signs;  ///< what to ask, two at least or one; none of them has been told
    friend bool operator==(const OpenQuestion&, const OpenQuestion&) = default;
};

}  // namespace lidlift
