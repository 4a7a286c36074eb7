// What the findings of one same-observation group do together to the odds of a set of causes: the strongest for and the
// strongest against count in full, the others in part. In decibans the same stands in weighing.cpp.
#pragma once

#include <algorithm>
#include <cmath>

namespace lidlift {

class SameObservation {
public:
    /// How much likelier one finding is under the set than under none of the listed causes.
    void take(double ratio) {
        product_ *= ratio;
        most_ = std::max(most_, ratio);
        least_ = std::min(least_, ratio);
    }
    /// `share` is that of the findings that count in part.
    [[nodiscard]] double together(double share) const {
        if (most_ * least_ == product_) return product_;
        return std::exp(share * std::log(product_) + (1 - share) * std::log(most_ * least_));
    }

private:
    double product_ = 1;
    double most_ = 1;
    double least_ = 1;
};

}  // namespace lidlift
