// The entries of a tank's record: one map of the file -> what happened on one day.
#pragma once

#include "engine/materials.hpp"
#include "engine/reader/entry.hpp"
#include "engine/tank_record.hpp"

#include <optional>
#include <string_view>
#include <vector>

namespace lidlift::reader {

/// Bounds, both included, in the unit that they are asked for in.
struct Bounds {
    double low = 0;
    double high = 0;
};

/// A quantity whose unit was written, in `unit`; what is no such quantity or lies outside the bounds is a complaint.
[[nodiscard]] std::optional<double> read_measured(const YamlNode& node, std::string_view what, std::string_view unit,
                                                  const Bounds& bounds, Complaints& complaints);

class TankEntryReader {
public:
    /// `record` holds the bays and measures already; it is referred to, as are the others.
    TankEntryReader(const TankRecord& record, const RuleBase& rule_base, Complaints& complaints);

    /// Adds what one item of `entries` says.
    void read(const YamlNode& node, std::vector<RecordedEntry>& into);

private:
    class One;

    const TankRecord& record_;
    const RuleBase& rule_base_;
    Complaints& complaints_;
    MaterialNames materials_;
};

}  // namespace lidlift::reader
