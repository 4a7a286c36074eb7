#include "engine/facts.hpp"

#include <algorithm>
#include <utility>

namespace lidlift {

std::string as_recorded(const Observation& observation) {
    return observation.from.starts_with(from_the_record) ? " (from " + observation.from + ")" : "";
}

std::string as_recorded_in_brief(const Observation& observation) {
    if (!observation.from.starts_with(from_the_record)) return {};
    return " (record: " + observation.from.substr(from_the_record.size()) + ")";
}

const Observation* Facts::find(Handle<Sign> sign) const {
    if (sign.index >= by_sign_.size() || !by_sign_[sign.index]) return nullptr;
    return &*by_sign_[sign.index];
}

void Facts::set(Handle<Sign> sign, Observation observation) {
    if (sign.index >= by_sign_.size()) by_sign_.resize(sign.index + 1);
    by_sign_[sign.index] = std::move(observation);
}

void Facts::forget(Handle<Sign> sign) {
    if (sign.index < by_sign_.size()) by_sign_[sign.index].reset();
}

std::vector<Handle<Sign>> Facts::known() const {
    std::vector<Handle<Sign>> result;
    for (std::uint32_t i = 0; i < by_sign_.size(); ++i)
        if (by_sign_[i]) result.push_back({i});
    return result;
}

bool Facts::all_sure() const {
    return std::ranges::all_of(by_sign_, [](const auto& seen) { return !seen || seen->sureness == Sureness::sure; });
}

}  // namespace lidlift
