// The phrasebook of the default rules, and what it hears.
#pragma once

#include "engine/phrasebook.hpp"
#include "tests/engine/short_rules.hpp"

#include <string>
#include <string_view>

namespace lidlift::test {

inline const Phrasebook& phrasebook() {
    static const Phrasebook book(default_base());
    return book;
}

/// "sign=value; sign=value" in the order heard.
inline std::string heard(std::string_view text) {
    std::string result;
    for (const Reading& reading : phrasebook().read(text).readings)
        result += (result.empty() ? "" : "; ") + default_base().signs[reading.sign].id + "=" + reading.value;
    return result;
}

}  // namespace lidlift::test
