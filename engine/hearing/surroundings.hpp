// A phrase where it stands: its clause, and the words around it.
#pragma once

#include "engine/hearing/clause_frame.hpp"
#include "engine/hearing/phrase_index.hpp"
#include "engine/hearing/sayings.hpp"

#include <optional>
#include <string>

namespace lidlift::hearing {

/// A clause with its phrases (in the order in which they stand) and all that is known of how it is meant.
struct Scene {
    Words words;  ///< of the whole segment
    Clause clause;
    Frame frame;
    const Covered* covered = nullptr;
    int troubles = 0;       ///< phrases about what is wrong, in the clause that this one leads in; Judge::verdicts adds its own
    int other_matters = 0;  ///< phrases about feeding, keeping and people
    bool others_spoken_of = false;  ///< the last creature named before this clause is no compost worm
};

/// A phrase this short, alone in a list after a negated clause, may be negated with it.
inline constexpr std::size_t short_phrase = 2;
/// How far back an amount is looked for: "loads of horrible little flies".
inline constexpr std::size_t reach_of_amounts = 2;

/// Keeps references to all that it is made from.
class Surroundings {
public:
    Surroundings(const RuleBase& rule_base, const Scene& scene, const Match& match)
        : scene_(scene), match_(match), meaning_(*match.meaning), sign_(rule_base.signs[meaning_.sign]) {}

    [[nodiscard]] const Scene& scene() const { return scene_; }
    [[nodiscard]] const Match& match() const { return match_; }
    [[nodiscard]] const Meaning& meaning() const { return meaning_; }
    [[nodiscard]] const Sign& sign() const { return sign_; }

    [[nodiscard]] const std::string& word(std::size_t at) const { return scene_.words[at].text; }
    [[nodiscard]] bool has_before() const { return match_.first > scene_.clause.first; }
    [[nodiscard]] bool has_after() const { return match_.last < scene_.words.size(); }
    [[nodiscard]] bool one_word() const { return match_.length() == 1; }
    /// Does the word belong to no phrase and no figure?
    [[nodiscard]] bool free(std::size_t at) const { return !(*scene_.covered)[at]; }
    [[nodiscard]] bool is_amount(std::size_t at) const { return word(at) == many_of || word(at) == few_of; }

    /// The word before the phrase, strengthening words and "is" passed over; none at the clause's beginning.
    [[nodiscard]] std::optional<std::size_t> neighbour_before() const;
    [[nodiscard]] bool stands_before(const Sayings& sayings) const;
    [[nodiscard]] bool stands_around(const Sayings& sayings) const;

protected:
    const Scene& scene_;
    const Match& match_;
    const Meaning& meaning_;
    const Sign& sign_;
};

}  // namespace lidlift::hearing
