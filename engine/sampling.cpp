#include "engine/sampling.hpp"

#include "engine/quantity.hpp"

#include <cmath>
#include <initializer_list>

namespace lidlift {
namespace {

bool all_sound(std::initializer_list<double> numbers) {
    for (const double number : numbers)
        if (!std::isfinite(number) || number < 0) return false;
    return true;
}

constexpr double heaviest_sample = 5000;  // kg/m3; steel shot would be that heavy, no compost is

}  // namespace

Outcome<double> moisture_by_drying(double container, double with_fresh, double with_dried) {
    if (!all_sound({container, with_fresh, with_dried})) return Fault{"a weight cannot be less than nothing"};
    if (!(with_fresh > container))
        return Fault{"the container with the fresh sample (" + number_to_text(with_fresh) +
                     ") has to weigh more than the empty one (" + number_to_text(container) + ")"};
    if (with_dried > with_fresh)
        return Fault{"the dried sample (" + number_to_text(with_dried) + ") cannot weigh more than the fresh one (" +
                     number_to_text(with_fresh) + "), both with the container"};
    if (with_dried < container)
        return Fault{"the container with the dried sample (" + number_to_text(with_dried) +
                     ") cannot weigh less than the empty one (" + number_to_text(container) + ")"};
    return 100 * (with_fresh - with_dried) / (with_fresh - container);
}

double wet_from_dry_basis(double dry_basis) { return 100 * dry_basis / (100 + dry_basis); }

double dry_from_wet_basis(double wet_basis) { return 100 * wet_basis / (100 - wet_basis); }

Outcome<double> density_by_bucket(double empty_kg, double full_kg, double litres) {
    if (!all_sound({empty_kg, full_kg, litres})) return Fault{"a weight or a volume cannot be less than nothing"};
    if (!(litres > 0)) return Fault{"a bucket has to hold something"};
    if (!(full_kg > empty_kg))
        return Fault{"the full bucket (" + number_to_text(full_kg) + " kg) has to weigh more than the empty one (" +
                     number_to_text(empty_kg) + " kg)"};
    const double density = 1000 * (full_kg - empty_kg) / litres;
    if (density > heaviest_sample)
        return Fault{"a bulk density of " + rough_number(density) +
                     " kg/m3 cannot be: nothing that goes into a tank is that heavy"};
    return density;
}

Outcome<Estimate> carbon_from_ash(double ash) {
    if (!(ash >= 0 && ash <= 100)) return Fault{"ash is a share of the dry matter, from 0 to 100 %"};
    const double carbon = (100 - ash) / 1.8;
    return Estimate{0.9 * carbon, carbon, 1.1 * carbon};
}

double yield_of(double kept, double moisture_in, double moisture_out) {
    return 100 * kept * (100 - moisture_in) / (100 - moisture_out);
}

}  // namespace lidlift
