// The verdict in the words that JSON output relies upon.
#pragma once

#include "engine/advice.hpp"

namespace lidlift::cli {

[[nodiscard]] inline const char* verdict_word(Verdict verdict) {
    switch (verdict) {
        case Verdict::nothing_wrong:
            return "nothing is wrong, leave it alone";
        case Verdict::act:
            return "act";
        case Verdict::cannot_tell:
            return "cannot tell, look at this next";
        case Verdict::emergency:
            return "people first";
    }
    return "";
}

}  // namespace lidlift::cli
