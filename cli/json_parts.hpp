// What every page of JSON is written with. The kind of JSON is left to the caller, so that no header names its library.
#pragma once

#include "engine/catalogue.hpp"
#include "engine/estimate.hpp"

#include <optional>
#include <string>
#include <vector>

namespace lidlift::cli {

template <class Json, class T>
[[nodiscard]] Json id_list(const Catalogue<T>& catalogue, const std::vector<Handle<T>>& handles) {
    Json ids = Json::array();
    for (const auto handle : handles) ids.push_back(catalogue[handle].id);
    return ids;
}

template <class Json>
[[nodiscard]] Json text_or_null(const std::string& text) {
    return text.empty() ? Json(nullptr) : Json(text);
}

template <class Json>
[[nodiscard]] Json bounds(const Estimate& estimate) {
    return {{"low", estimate.low}, {"typical", estimate.typical}, {"high", estimate.high}};
}
template <class Json>
[[nodiscard]] Json bounds(const std::optional<Estimate>& estimate) {
    return estimate ? bounds<Json>(*estimate) : Json(nullptr);
}

/// Indented, in ASCII; `indent` -1: on one line.
template <class Json>
[[nodiscard]] std::string dumped(const Json& json, int indent = 2) {
    return json.dump(indent, ' ', true, Json::error_handler_t::replace) + "\n";
}

}  // namespace lidlift::cli
