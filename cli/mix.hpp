// lidlift mix: moisture, C:N and density of a mixture, and what to add.
#pragma once

#include "cli/session.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

struct MixOptions {
    std::vector<std::string> parts;     ///< "30 kg kitchen_waste", in one argument or in several
    std::vector<std::string> reach;     ///< "60 % moisture", "25 C:N", "resting", "worms"
    std::vector<std::string> with;      ///< "dry_leaves", "dry_leaves up to 20 kg"
    std::vector<std::string> measured;  ///< "kitchen_waste moisture 82 %"
    std::vector<std::string> bucket;    ///< "10 L"; of several the last holds
    std::vector<std::string> barrow;
    std::vector<std::string> vessel;  ///< "sack 40 L"
};

[[nodiscard]] int mix(const Options& options, const MixOptions& mix_options);

/// The arguments of a whole command line, with a number that follows --bucket, --barrow or --reach joined to the unit after it,
/// so that `--bucket 10 L` needs no quotes. Others stay as they are.
[[nodiscard]] std::vector<std::string> with_units_joined(const std::vector<std::string>& arguments);

}  // namespace lidlift::cli
