// Does a list hold an item?
#pragma once

#include <algorithm>
#include <vector>

namespace lidlift {

template <class T>
[[nodiscard]] bool contains(const std::vector<T>& list, const T& item) {
    return std::ranges::find(list, item) != list.end();
}

}  // namespace lidlift
