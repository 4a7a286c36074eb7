// One call: what was said, asked and answered, in order, what was advised, and how it ended. The format stands in
// rules/CALLS.md; it has no place for names, addresses or telephone numbers of people.
#pragma once

#include "engine/complaint.hpp"
#include "engine/facts.hpp"
#include "engine/moment.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

/// One answer that came out of what was said, with the names of the rule base that it was recorded under.
struct RecordedAnswer {
    std::string sign;
    std::string is;  ///< as after '=', without how sure: "strong", "31 °C", "?"
    Sureness sure = Sureness::sure;
    std::string from;  ///< the words that led there; empty: all of the entry's words
    friend bool operator==(const RecordedAnswer&, const RecordedAnswer&) = default;
};

struct RecordedChance {
    std::string cause;
    double chance = 0;
    friend bool operator==(const RecordedChance&, const RecordedChance&) = default;
};

/// What was advised, and why the asking ended.
struct RecordedAdvice {
    std::string because;  ///< one of stop_words()
    std::vector<RecordedChance> causes;
    double nothing_listed = 0;
    std::vector<std::string> steps;
    std::vector<std::string> cautions;
    friend bool operator==(const RecordedAdvice&, const RecordedAdvice&) = default;
};

/// How a follow-up went; each answer is an entry of its own, so that none is lost.
struct FollowUp {
    enum class Done { all, partly, nothing };
    enum class Helped { solved, better, same, worse, unknown };
    std::optional<Done> done;
    std::optional<Helped> helped;
    friend bool operator==(const FollowUp&, const FollowUp&) = default;
};

/// What it was in the end; of several such entries the last counts.
struct ConfirmedCause {
    enum class How { seen, remedy_worked, guess };
    std::vector<std::string> causes;  ///< none: something that is not listed
    std::optional<How> how;           ///< not asked yet
    friend bool operator==(const ConfirmedCause&, const ConfirmedCause&) = default;
};

/// One exchange or event; which members count hangs on the kind.
struct CallEntry {
    enum class Kind {
        words,      ///< the caller's own words, before any question
        safety,     ///< the question about dangers; `signs` are those asked after
        asked,      ///< a question: `sign`, and the answer
        changed,    ///< an earlier answer to `sign` put right: what was said of it before no longer counts
        news,       ///< own words at a follow-up: what they say replaces what was said before
        back,       ///< the exchange before this one no longer counts
        advised,    ///< `advice`
        follow_up,  ///< `follow_up`
        confirmed   ///< `confirmed`
    };
    Kind kind = Kind::words;
    Moment when = {};
    std::string words = {};  ///< as they were typed, numbers of telephones left out
    std::string sign = {};
    std::vector<std::string> signs = {};
    std::vector<RecordedAnswer> heard = {};
    RecordedAdvice advice = {};
    FollowUp follow_up = {};
    ConfirmedCause confirmed = {};
    friend bool operator==(const CallEntry&, const CallEntry&) = default;
};

struct CallRecord {
    bool closed = false;
    Moment begun;
    std::string rule_base;  ///< its name
    std::string version;
    std::string tank;  ///< the tank's record, if one was given
    std::string bay;   ///< of that tank, where one was named
    std::vector<CallEntry> course;
    friend bool operator==(const CallRecord&, const CallRecord&) = default;
};

/// Of the causes that were advised on, those with less chance are not recorded.
inline constexpr double least_chance_recorded = 0.05;
/// A call may hold so many exchanges and events; the reader refuses more, and an interview ends before.
inline constexpr std::size_t longest_course = 200;
/// Of a line that a person typed no more than this is read and recorded, so that a record never outgrows what a reader takes.
inline constexpr std::size_t longest_line = 2048;  ///< bytes

/// The file that says all this, ending in a line feed.
[[nodiscard]] std::string write_call(const CallRecord& record);

/// `text` without what looks like a telephone number (seven digits or more) or an e-mail address.
[[nodiscard]] std::string without_numbers_of_people(std::string_view text);

/// The entries that count: those that were not taken back, without the marks of taking back.
[[nodiscard]] std::vector<const CallEntry*> what_counts(const CallRecord& record);

/// Words of the format, by the enumerators' order.
[[nodiscard]] const std::vector<std::string>& sureness_words();
[[nodiscard]] const std::vector<std::string>& done_words();
[[nodiscard]] const std::vector<std::string>& helped_words();
[[nodiscard]] const std::vector<std::string>& how_words();

}  // namespace lidlift
