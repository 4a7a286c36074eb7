// A mixture and what to add to it -> JSON: more keys may be added, none renamed.
#pragma once

#include "cli/render_mix.hpp"

#include <string>

namespace lidlift::cli {

/// One object, ASCII only, ending in a line feed. Figures as {"low", "typical", "high"}; a `high` that has no end is null.
[[nodiscard]] std::string render_mix_json(const MixPage& page);

}  // namespace lidlift::cli
