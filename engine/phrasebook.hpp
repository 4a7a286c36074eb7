// A caller's own words -> answers. A wrong reading is worse than a missed one: what could be meant in two ways is not used.
#pragma once

#include "engine/open_question.hpp"
#include "engine/rule_base.hpp"

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

/// One answer that was heard, ready for `hear`.
struct Reading {
    Handle<Sign> sign;
    std::string value;  ///< as after '=': "strong", "not stream", "31 °C,unsure"
    std::string words;  ///< what was said, as it was said: "reeks of rotten eggs"
    friend bool operator==(const Reading&, const Reading&) = default;
};

struct Understanding {
    std::vector<Reading> readings;            ///< in the order in which they were said; none contradicts another
    std::vector<OpenQuestion> to_ask;         ///< what may mean several things; none of its signs is in `readings`
    std::vector<std::string> not_understood;  ///< clauses that gave no reading, as they were said
};

/// The `heard as` phrases of a rule base, looked for in whole sentences. Works with any rule base; keeps a reference to it.
///
/// Not read, and why: questions and what is only imagined ("if it smells", "should I"), what is over ("it used to stink"), what
/// is said of another bed or of things in general ("my neighbour's bin", "I read that"), alternatives ("too wet or too dry"),
/// amounts that no phrase fits, and a place or a movement when it is not clear that the worms are meant.
class Phrasebook {
public:
    /// A longer text is cut at the last space before this; the rest is not understood.
    static constexpr std::size_t longest_text = 8 * 1024;  ///< bytes

    explicit Phrasebook(const RuleBase& rule_base);
    ~Phrasebook();
    Phrasebook(Phrasebook&&) noexcept;
    Phrasebook& operator=(Phrasebook&&) noexcept;

    [[nodiscard]] Understanding read(std::string_view text) const;

private:
    struct Inside;
    std::unique_ptr<Inside> inside_;
};

}  // namespace lidlift
