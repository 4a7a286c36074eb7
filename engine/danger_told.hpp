// What was told calls for a caution that cannot wait for the advice at the end of the call.
#pragma once

#include "engine/answers.hpp"
#include "engine/chaining.hpp"
#include "engine/rule_base.hpp"

#include <vector>

namespace lidlift {

/// The cautions that what was told calls for and that are to be read out at once, the gravest first: those of level stop, and
/// those about people's own state, which is what emergencies hang on.
[[nodiscard]] std::vector<Handle<Caution>> dangers_told(const RuleBase& rule_base, const Told& told,
                                                        const Conclusions& conclusions);

/// Somebody is hurt or unwell: a caution holds that speaks of people's own state, which is what emergencies hang on.
[[nodiscard]] bool people_come_first(const RuleBase& rule_base, const Told& told, const Conclusions& conclusions);

}  // namespace lidlift
