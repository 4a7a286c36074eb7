// What the file site.yaml of a site's folder says: what no tank's record can, the site's name and how much waste comes in.
#pragma once

#include "engine/complaint.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

struct Site {
    std::string name;                     ///< empty: not stated
    std::optional<int> households;        ///< that bring their waste
    std::optional<double> waste_per_day;  ///< kg that comes in, by the site's own count
    std::string note;
};

inline constexpr int most_households = 100'000;
inline constexpr double most_waste_per_day = 100'000;  ///< kg

struct SiteReading {
    Site site;                          ///< only to be used when there are no complaints
    std::vector<Complaint> complaints;  ///< sorted
};

/// Reads a map with `site`, `households`, `waste a day` and `note`, all of which may be left out.
[[nodiscard]] SiteReading read_site(std::string_view text, const std::string& file);

}  // namespace lidlift
