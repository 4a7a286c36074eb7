// Caller sentences with the signs that a careful listener takes from them, and how well the phrasebook does on them.
#pragma once

#include "engine/phrasebook.hpp"

#include <algorithm>
#include <fstream>
#include <iostream>
#include <sstream>
#include <string>
#include <vector>

namespace lidlift::test {

struct Expected {
    std::vector<std::string> readings;  ///< any of them is right
    bool optional = false;
};
struct Sentence {
    std::string words;
    std::vector<Expected> expected;
};

inline std::string trimmed(const std::string& text) {
    const auto begin = text.find_first_not_of(' ');
    return begin == std::string::npos ? "" : text.substr(begin, text.find_last_not_of(' ') - begin + 1);
}

/// "sign=a/b" -> "sign=a", "sign=b"
inline std::vector<std::string> alternatives(const std::string& text) {
    const std::string sign = text.substr(0, text.find('=') + 1);
    std::stringstream rest(text.substr(sign.size()));
    std::vector<std::string> result;
    for (std::string value; std::getline(rest, value, '/');) result.push_back(sign + value);
    return result;
}

/// The sentences of tests/engine/`name`; the format stands in caller_sentences.txt.
inline std::vector<Sentence> caller_sentences(const std::string& name) {
    std::ifstream file(LIDLIFT_TESTS_FOLDER "/engine/" + name);
    std::vector<Sentence> sentences;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line.front() == '#') continue;
        if (line.front() != '=') {
            sentences.push_back({line, {}});
            continue;
        }
        std::stringstream rest(line.substr(1));
        for (std::string part; std::getline(rest, part, '|');) {
            part = trimmed(part);
            const bool optional = !part.empty() && part.front() == '~';
            if (!part.empty()) sentences.back().expected.push_back({alternatives(part.substr(optional ? 1 : 0)), optional});
        }
    }
    return sentences;
}

struct Score {
    int right = 0;   ///< readings that were asked for
    int wrong = 0;   ///< readings that the sentence does not hold
    int missed = 0;  ///< asked for and not read
    [[nodiscard]] double precision() const { return right + wrong == 0 ? 1 : static_cast<double>(right) / (right + wrong); }
    [[nodiscard]] double recall() const { return right + missed == 0 ? 1 : static_cast<double>(right) / (right + missed); }
};

inline void add_score(const Phrasebook& phrasebook, const RuleBase& base, const Sentence& sentence, bool tell, Score& score) {
    std::vector<std::string> readings;
    for (const Reading& reading : phrasebook.read(sentence.words).readings)
        readings.push_back(base.signs[reading.sign].id + "=" + reading.value);
    const auto is_read = [&](const Expected& expected) {
        return std::ranges::find_first_of(readings, expected.readings) != readings.end();
    };
    const auto is_expected = [&](const std::string& reading) {
        return std::ranges::any_of(
            sentence.expected, [&](const Expected& e) { return std::ranges::find(e.readings, reading) != e.readings.end(); });
    };
    for (const Expected& expected : sentence.expected) {
        if (expected.optional) continue;
        ++(is_read(expected) ? score.right : score.missed);
        if (tell && !is_read(expected))
            std::cout << "missed " << expected.readings.front() << "   in: " << sentence.words << '\n';
    }
    for (const std::string& reading : readings) {
        if (is_expected(reading)) continue;
        ++score.wrong;
        if (tell) std::cout << "WRONG " << reading << "   in: " << sentence.words << '\n';
    }
}

}  // namespace lidlift::test
