// Whether the words around a phrase let it speak of what its sign is about: this bed, these worms.
#pragma once

#include "engine/hearing/surroundings.hpp"

namespace lidlift::hearing {

/// `emergency`: people are in danger if it is so.
[[nodiscard]] bool is_about_its_topic(const Surroundings& phrase, bool emergency);

/// What stands before the phrase names nothing, or names one of these.
[[nodiscard]] bool subject_is_known(const Surroundings& phrase, const Sayings& subjects);

}  // namespace lidlift::hearing
