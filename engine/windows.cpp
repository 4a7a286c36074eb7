#include "engine/windows.hpp"

#include <algorithm>
#include <cmath>

namespace lidlift {

const std::array<StageWindows, 2>& stage_windows() {
    // shared/practice/materials.md, sections 4.1 and 4.2, has who says what, read or from memory.
    static constexpr std::array<StageWindows, 2> windows{{
        {"resting",
         "the hot resting stage",
         {{40, 65},
          {50, 60},
          "LSU AgCenter 3838-D (after NRAES-54), Cooperband 2002 and The Composting Handbook 2022, read: all work between 40 "
          "and "
          "65 %, best at 50 to 55, 45 to 60 or 50 to 60 %"},
         {{20, 40},
          {25, 35},
          "LSU AgCenter 3838-D and Cooperband 2002, read: 20 to 40, best 25 to 30 or 25 to 35; The Composting Handbook 2022 "
          "lets "
          "it rise to 60"},
         false},
        {"worms",
         "the worm stage",
         {{60, 90},
          {70, 85},
          "Edwards, Earthworm Ecology, read: 60 to 90 %; the best of it drawn together from Edwards (80 to 90), FAO (70 to 85 "
          "and "
          "75 to 90) and others"},
         {{20, 40}, {20, 40}, "from memory; 25 gave the best product in Ndegwa and Thompson 2000 (biosolids and paper), read"},
         true},
    }};
    return windows;
}

const StageWindows* find_stage_windows(std::string_view word) {
    const auto& all = stage_windows();
    const auto* const found = std::ranges::find(all, word, &StageWindows::word);
    return found == all.end() ? nullptr : found;
}

Judgement judge(double value, const Window& window) {
    const double slack = 1e-6 * std::abs(value);
    if (value < window.works.low - slack) return Judgement::below;
    if (value > window.works.high + slack) return Judgement::above;
    if (value < window.best.low - slack) return Judgement::low;
    return value > window.best.high + slack ? Judgement::high : Judgement::inside;
}

const char* to_word(Judgement judgement) {
    switch (judgement) {
        case Judgement::below:
            return "below";
        case Judgement::low:
            return "a little low";
        case Judgement::inside:
            return "right";
        case Judgement::high:
            return "a little high";
        case Judgement::above:
            return "above";
    }
    return "";
}

}  // namespace lidlift
