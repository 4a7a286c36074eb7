// lidlift show: what stands in the rule base.
#pragma once

#include "cli/session.hpp"

#include <string>

namespace lidlift::cli {

/// `kind` is empty (what there is), or one of show_kinds(); `name` is empty (the list), or one entry's id.
[[nodiscard]] int show(const Options& options, const std::string& kind, const std::string& name);

}  // namespace lidlift::cli
