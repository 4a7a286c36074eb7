// Whether a phrase is affirmed or denied where it stands.
#pragma once

#include "engine/hearing/surroundings.hpp"

namespace lidlift::hearing {

enum class Polarity { affirmed, denied, denied_to_exist, unclear };

/// `before` is the polarity of the phrase before it in the clause: "no ants or mites" denies both.
[[nodiscard]] Polarity polarity_of(const Surroundings& phrase, Polarity before);

/// "How do I get rid of the ants", "I can't get rid of these gnats": they are there.
[[nodiscard]] bool taken_for_granted(const Surroundings& phrase);

}  // namespace lidlift::hearing
