// Call records: written, read again, and refused with their place.
#include "engine/call_record.hpp"

#include "engine/call_record_reader.hpp"
#include "engine/interview.hpp"
#include "tests/catch.hpp"

#include <string>
#include <vector>

namespace engine_call_record_test {

using namespace lidlift;

namespace {

constexpr const char* head = "call: {state: open, begun: 2026-03-09 14:05, rule base: r, version: \"1\"}\n";

std::string complaints_of(const std::string& text) {
    Complaints complaints;
    (void)read_call(text, "call.yaml", complaints);
    std::string result;
    for (const Complaint& complaint : complaints.sorted()) result += to_text(complaint) + "\n";
    return result;
}

}  // namespace

TEST_CASE("every kind of entry is read as it was written", "[call_record]") {
    const Moment when{Day(std::chrono::year(2026) / 12 / 31), 86399};
    CallRecord record{true, when, "a \"base\" \\ of ours", "2", "tanks/three.yaml", "left", {}};
    const RecordedAnswer answer{"wet", "not a,not b", Sureness::guess, "it's \"wet\", é \\ # {x}"};
    record.course.push_back(
        {.kind = CallEntry::Kind::words, .when = when, .words = "a: b # c, 'd'\t[e]", .heard = {answer, answer}});
    record.course.push_back({.kind = CallEntry::Kind::words, .when = when});
    record.course.push_back(
        {.kind = CallEntry::Kind::safety, .when = when, .words = "none", .signs = {"a", "b"}, .heard = {answer}});
    record.course.push_back(
        {.kind = CallEntry::Kind::asked, .when = when, .words = "?", .sign = "a", .heard = {{"a", "?", {}, {}}}});
    record.course.push_back({.kind = CallEntry::Kind::back, .when = when});
    record.course.push_back(
        {.kind = CallEntry::Kind::changed, .when = when, .words = "1", .sign = "a", .heard = {{"a", "31 °C", {}, {}}}});
    record.course.push_back({.kind = CallEntry::Kind::advised,
                             .when = when,
                             .advice = {"ten questions", {{"x", 0.25}, {"y", 1}}, 0.0625, {"s"}, {"K01b"}}});
    record.course.push_back({.kind = CallEntry::Kind::advised, .when = when, .advice = {"emergency", {}, 0, {}, {}}});
    record.course.push_back({.kind = CallEntry::Kind::follow_up, .when = when, .follow_up = {FollowUp::Done::partly, {}}});
    record.course.push_back({.kind = CallEntry::Kind::follow_up, .when = when, .follow_up = {{}, FollowUp::Helped::worse}});
    record.course.push_back({.kind = CallEntry::Kind::confirmed, .when = when, .confirmed = {{}, {}}});
    record.course.push_back(
        {.kind = CallEntry::Kind::confirmed, .when = when, .confirmed = {{"x", "y"}, ConfirmedCause::How::remedy_worked}});
    record.course.push_back({.kind = CallEntry::Kind::news, .when = when, .words = "", .heard = {answer}});
    Complaints complaints;
    const CallRecord again = read_call(write_call(record), "call.yaml", complaints);
    for (const Complaint& complaint : complaints.sorted()) FAIL_CHECK(to_text(complaint));
    CHECK(again == record);
    CHECK(write_call(again) == write_call(record));
    record.course.clear();
    CHECK(complaints_of(write_call(record)).empty());
}

TEST_CASE("mistakes in a record are said with their place and the nearest word", "[call_record]") {
    struct Row {
        std::string text, complaint;
    };
    const std::string h = head;
    for (const Row& row : std::vector<Row>{
             {"", "call.yaml:1:1: a call record lacks the key 'call'"},
             {h, "lacks the key 'course'"},
             {h + "course: {}", "'course' should be a list"},
             {h + "course:\n  - {when: 2026-03-09 14:05, wods: x}", "call.yaml:3:30: unknown key 'wods'"},
             {h + "course:\n  - {when: 2026-03-09 14:05, wods: x}", "did you mean 'words'?"},
             {h + "course:\n  - {when: 2026-02-30 14:05, words: x}", "there is no 30th of February"},
             {h + "course:\n  - {when: 2026-03-09 25:05, words: x}", "after the day comes the time"},
             {h + "course:\n  - {when: 2026-03-09, words: x}", "after the day comes the time"},
             {h + "course:\n  - {words: x}", "lacks the key 'when'"},
             {h + "course:\n  - {when: 2026-03-09 14:05}", "an entry says one of"},
             {h + "course:\n  - {when: 2026-03-09 14:05, asked: a, back: yes}", "one thing only"},
             {h + "course:\n  - {when: 2026-03-09 14:05, back: yes, words: x}", "'back' beside another"},
             {h + "course:\n  - {when: 2026-03-09 14:05, news: x, words: x}", "'news' beside another"},
             {h + "course:\n  - {when: 2026-03-09 14:05, follow up: {done: all}, words: x}", "'follow up' beside another"},
             {h + "course:\n  - {when: 2026-03-09 14:05, back: no}", "'back' is always yes"},
             {h + "course:\n  - {when: 2026-03-09 14:05, asked: A b}", "cannot be a name"},
             {h + "course:\n  - {when: 2026-03-09 14:05, words: x, heard: [{sign: a}]}", "lacks the key 'is'"},
             {h + "course:\n  - {when: 2026-03-09 14:05, words: x, heard: [{sign: a, is: b, sure: perhaps}]}",
              "'perhaps' is not one of"},
             {h + "course:\n  - {when: 2026-03-09 14:05, words: x, heard: [{sign: a, is: b, telephone: 1}]}",
              "unknown key 'telephone'"},
             {h + "course:\n  - {when: 2026-03-09 14:05, confirmed: {causes: [x], how: sean}}", "did you mean 'seen'?"},
             {h + "course:\n  - {when: 2026-03-09 14:05, advised: {because: bored, causes: [], nothing listed: 2, steps: [], "
                  "cautions: []}}",
              "'bored' is not one of"},
             {h + "course:\n  - {when: 2026-03-09 14:05, advised: {because: emergency, causes: [], nothing listed: 2, steps: "
                  "[], cautions: []}}",
              "is a chance, from 0 to 1"},
             {"call: {state: ajar, begun: 2026-03-09 14:05, rule base: r, version: v, caller: Ann}\ncourse: []",
              "unknown key 'caller'"},
             {"call: {state: ajar, begun: 2026-03-09 14:05, rule base: r, version: v}\ncourse: []",
              "'ajar' is not one of: open or closed"},
         }) {
        CAPTURE(row.text, complaints_of(row.text));
        CHECK(complaints_of(row.text).find(row.complaint) != std::string::npos);
    }
}

TEST_CASE("a record of as many entries as allowed is read, one more is refused", "[call_record]") {
    std::string text = std::string(head) + "course:\n";
    for (std::size_t i = 0; i < longest_course; ++i) text += "  - {when: 2026-03-09 14:05, words: x}\n";
    CHECK(complaints_of(text).empty());
    CHECK(complaints_of(text + "  - {when: 2026-03-09 14:05, words: x}\n").find("at most 200 entries") != std::string::npos);
}

TEST_CASE("a moment is written as it is read", "[call_record]") {
    CHECK(to_text(*read_moment("2026-03-09 14:05")) == "2026-03-09 14:05:00");
    CHECK(to_text(*read_moment("2026-12-31 23:59:59")) == "2026-12-31 23:59:59");
    for (const std::string bad : {"", "2026-03-09", "2026-03-09T14:05", "2026-03-09 24:00", "2026-03-09 14:60",
                                  "2026-03-09 14:05:60", "2026-03-09 1:05", "2026-03-09 14:05 ", "26-03-09 14:05"})
        CHECK_FALSE(read_moment(bad));
}

TEST_CASE("the words for the reasons to stop stand in the order of the reasons", "[call_record]") {
    REQUIRE(stop_words().size() == 7);
    CHECK(stop_words()[static_cast<std::size_t>(StopReason::sure_enough)] == "sure enough");
    CHECK(stop_words()[static_cast<std::size_t>(StopReason::nothing_changes)] == "nothing would change");
    CHECK(stop_words()[static_cast<std::size_t>(StopReason::emergency)] == "emergency");
}

TEST_CASE("what looks like somebody's number is left out, what is measured stays", "[call_record]") {
    struct Row {
        std::string text, kept;
    };
    for (const Row& row : std::vector<Row>{{"call 01234567 now", "call (number left out) now"},
                                           {"+44 20 7946 0018", "(number left out)"},
                                           {"(020) 7946-0018.", "(number left out)."},
                                           {"ann.b@example.org says", "(address left out) says"},
                                           {"31.5 °C, 3 buckets, 60 litres, 2026", "31.5 °C, 3 buckets, 60 litres, 2026"},
                                           {"31, 30, 28 and 27", "31, 30, 28 and 27"},
                                           {"12 kg @ noon", "12 kg @ noon"},
                                           {"", ""}})
        CHECK(without_numbers_of_people(row.text) == row.kept);
}

}  // namespace engine_call_record_test
