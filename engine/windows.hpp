// Between which bounds a mixture does well, and between which it works at all: one window for the hot resting stage, another
// for the worm stage. They barely overlap, so no mixture is judged without naming the stage.
#pragma once

#include <array>
#include <string>
#include <string_view>

namespace lidlift {

struct Band {
    double low = 0;
    double high = 0;
};

struct Window {
    Band works;          ///< outside it stops, or harms
    Band best;           ///< within `works`
    const char* source;  ///< who published which of the figures
};

struct StageWindows {
    const char* word;  ///< "resting", "worms": how a target names it
    const char* name;  ///< "the hot resting stage"
    Window moisture;   ///< % of fresh mass
    Window carbon_to_nitrogen;
    bool has_worms = false;
};

[[nodiscard]] const std::array<StageWindows, 2>& stage_windows();

/// By its word, or null.
[[nodiscard]] const StageWindows* find_stage_windows(std::string_view word);

enum class Judgement { below, low, inside, high, above };  ///< low and high: it works, but not at its best

/// A millionth beyond an end counts as on it: what was worked out to reach an end does.
[[nodiscard]] Judgement judge(double value, const Window& window);

/// "below", "a little low", "right", "a little high", "above"
[[nodiscard]] const char* to_word(Judgement judgement);

}  // namespace lidlift
