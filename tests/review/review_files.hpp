// The rule files of tests/review: bad_KIND.yaml shows a kind of finding, good_KIND.yaml is nearly the same and does not.
#pragma once

#include "engine/review/review.hpp"
#include "engine/rule_base_reader.hpp"
#include "tests/catch.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace lidlift::test {

inline std::string review_file(const std::string& name) {
    return std::string(LIDLIFT_TESTS_FOLDER) + "/review/" + name + ".yaml";
}

inline RuleBaseReading read_review_file(const std::string& name) {
    std::ifstream stream(review_file(name), std::ios::binary);
    if (!stream) FAIL("there is no " << review_file(name));
    const std::vector<RuleText> files = {{name + ".yaml", {std::istreambuf_iterator<char>(stream), {}}}};
    return read_rule_base(files);
}

/// What `lidlift check` finds in the file, the reader's complaints included.
inline std::vector<ReviewFinding> findings_in(const std::string& name) {
    const RuleBaseReading reading = read_review_file(name);
    return reading.complaints.empty() ? review(reading.rule_base) : review_of_complaints(reading.complaints);
}

inline std::vector<ReviewFinding> of_kind(std::vector<ReviewFinding> findings, std::string_view kind) {
    std::erase_if(findings, [&](const ReviewFinding& finding) { return finding.kind != kind; });
    return findings;
}

/// The witness as it would be typed after `lidlift why`.
inline std::vector<std::string> typed(const ReviewFinding& finding) {
    std::vector<std::string> words;
    for (const WitnessAnswer& answer : finding.witness) words.push_back(answer.sign + "=" + answer.value);
    return words;
}

}  // namespace lidlift::test
