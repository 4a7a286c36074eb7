// How much paper a text and a sheet take.
#include "cli/handover_paper.hpp"

#include "cli/paper.hpp"
#include "engine/cases.hpp"
#include "rules/default_cases.hpp"
#include "tests/catch.hpp"
#include "tests/engine/short_rules.hpp"

#include <string>
#include <vector>

namespace cli_handover_paper_test {

using namespace lidlift;
using namespace lidlift::cli;
using namespace lidlift::test;

TEST_CASE("the width of a text is that of Helvetica's letters", "[cli][paper]") {
    // Adobe's Helvetica.afm: H 722, e 556, l 222, o 556, space 278, W 944, r 333, d 556, @ 1015, ~ 584.
    CHECK(width_in_ems("Hello") == Approx(2.278));
    CHECK(width_in_ems("World") == Approx(0.944 + 0.556 + 0.333 + 0.222 + 0.556));
    CHECK(width_in_ems(" @~") == Approx(0.278 + 1.015 + 0.584));
    CHECK(width_in_ems("") == 0);
    CHECK(width_in_ems("\xC3\xA4") < width_in_ems("\xE6\xBC\xA2"));
}

TEST_CASE("lines on paper are filled word by word", "[cli][paper]") {
    CHECK(lines_on_paper("", 10) == 1);
    CHECK(lines_on_paper("Hello World", 5.2) == 1);
    CHECK(lines_on_paper("Hello World", 5.1) == 2);
    CHECK(lines_on_paper("  Hello   World  ", 5.2) == 1);
    CHECK(lines_on_paper(std::string(100, 'e'), 5.56) == 10);  // a word without end is broken
    std::size_t before = 0;
    for (double width = 40; width > 2; width -= 0.7) {
        const std::size_t lines = lines_on_paper("Clear the outlet from outside with a rod, and stand clear of it.", width);
        CHECK(lines >= before);
        before = lines;
    }
}

TEST_CASE("every shipped case has a sheet that fits on paper with all its cautions", "[cli][paper][handover]") {
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    const Phrasebook phrasebook(base);
    Complaints complaints;
    CaseResolver resolver(base);
    std::size_t whole = 0;
    std::size_t all = 0;
    for (const WrittenCase& written : read_cases(default_cases(), complaints)) {
        if (all++ % 3 != 0) continue;  // a third of them is enough, and three times as fast
        const Told told = resolver.resolve(written, complaints).told;
        CallRecord record;
        CallEntry entry;
        entry.words = written.words.empty() ? written.story : written.words;
        for (const auto sign : told.order)
            if (const Observation* seen = told.facts.find(sign))
                entry.heard.push_back({base.signs[sign].id, as_value(base.signs[sign], *seen), seen->sureness, {}});
        record.course.push_back(std::move(entry));
        const CallSummary call = summary_of(record, ranker, phrasebook);
        CAPTURE(written.id);
        CHECK(call.misfits.empty());
        std::size_t room = 0;
        while (room < sheet_rooms.size() && !layout_that_fits(sheet_of(base, call, sheet_rooms[room], "call.yaml"))) ++room;
        REQUIRE(room < sheet_rooms.size());
        whole += room == 0;
        const Sheet sheet = sheet_of(base, call, sheet_rooms[room], "call.yaml");
        CHECK(sheet.cautions.size() == call.diagnosis.advice.cautions.size());
        CHECK(sheet.left_out.empty() == (room == 0));
    }
    CHECK(complaints.empty());
    CHECK(2 * whole > all / 3);  // most of them whole
}

TEST_CASE("a sheet of less room is no higher, and keeps the cautions and the checks", "[cli][paper][handover]") {
    const RuleBase& base = default_base();
    const Ranker ranker(base);
    const Phrasebook phrasebook(base);
    CallRecord record;
    CallEntry entry;
    entry.words = std::string(600, 'a') + " b";
    entry.heard = {{"smell_rotten", "strong", Sureness::sure, {}},
                   {"squeeze", "stream", Sureness::sure, {}},
                   {"drain", "blocked", Sureness::sure, {}}};
    record.course.push_back(entry);
    const CallSummary call = summary_of(record, ranker, phrasebook);
    const Sheet full = sheet_of(base, call, sheet_rooms.front(), "call.yaml");
    double before = 1e9;
    for (const SheetRoom& room : sheet_rooms) {
        const Sheet sheet = sheet_of(base, call, room, "call.yaml");
        const double share = share_of_paper(sheet, {9, false});
        CHECK(share <= before + 0.05);  // the line that says what is left out grows
        before = share;
        CHECK(sheet.cautions.size() == full.cautions.size());
        REQUIRE_FALSE(sheet.steps.empty());
        CHECK(sheet.steps.front().when == "Now");
        for (const SheetSteps& group : sheet.steps)
            for (const SheetStep& step : group.steps) {
                bool there = false;
                for (const SheetSteps& of_all : full.steps)
                    for (const SheetStep& same : of_all.steps)
                        there = there || (same.say == step.say && same.checks == step.checks && same.mind == step.mind &&
                                          same.amounts == step.amounts);
                CHECK(there);
            }
        REQUIRE(sheet.causes.size() <= full.causes.size());
        for (std::size_t i = 0; i < sheet.causes.size(); ++i) {
            CHECK(sheet.causes[i].name == full.causes[i].name);
            CHECK(sheet.causes[i].together == sum_of(sheet.causes[i].balance));
            CHECK(sheet.causes[i].together == full.causes[i].together);
        }
    }
}

}  // namespace cli_handover_paper_test
