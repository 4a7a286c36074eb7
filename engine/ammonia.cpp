#include "engine/ammonia.hpp"

#include <algorithm>
#include <cmath>

namespace lidlift {

double un_ionised_share(double ph, double celsius) {
    const double kelvin = 273.15 + std::clamp(celsius, coldest_for_ammonia, hottest_for_ammonia);
    const double pka = 0.09018 + 2729.92 / kelvin;
    return 1 / (1 + std::pow(10.0, pka - ph));
}

}  // namespace lidlift
