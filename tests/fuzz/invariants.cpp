#include "tests/fuzz/invariants.hpp"

#include "engine/answers.hpp"
#include "engine/plain_text.hpp"
#include "engine/rule_base_reader.hpp"
#include "rules/default_rules.hpp"

#include <algorithm>

namespace lidlift::fuzz {
namespace {

/// How many code points a line has at most: every byte but the continuing ones of UTF-8 begins one.
std::size_t characters(std::string_view line) {
    return static_cast<std::size_t>(
        std::ranges::count_if(line, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string_view line_of(std::string_view text, int number) {
    for (; number > 1; --number) {
        const std::size_t end = text.find('\n');
        if (end == std::string_view::npos) return {};
        text.remove_prefix(end + 1);
    }
    return text.substr(0, text.find('\n'));
}

std::string_view sureness(Sureness how) { return how == Sureness::sure ? "" : how == Sureness::unsure ? ",unsure" : ",guess"; }

bool same(const Observation& a, const Observation& b) {
    return a.possible == b.possible && a.present == b.present && a.absent == b.absent && a.sureness == b.sureness &&
           a.measured.has_value() == b.measured.has_value();
}

}  // namespace

void ensure_harmless(std::string_view shown) {
    if (const auto bad = find_bad_character(shown)) throw Broken("what is shown holds " + bad->what);
    ensure(shown.find('\t') == std::string_view::npos && shown.find('\r') == std::string_view::npos,
           "what is shown holds a tab or a carriage return");
}

void ensure_placed(const std::vector<Complaint>& complaints, std::string_view text, const std::string& file) {
    const auto lines = 1 + std::ranges::count(text, '\n');
    for (const Complaint& complaint : complaints) {
        const std::string shown = for_terminal(to_text(complaint));
        ensure_harmless(shown);
        ensure(!complaint.text.empty(), "a complaint says nothing");
        // The count of those beyond the limit is about no file.
        if (complaint.place.file.empty()) continue;
        ensure(complaint.place.file == file, "another file is named: " + shown);
        if (complaint.place.line == 0) continue;
        ensure(complaint.place.line >= 1 && complaint.place.line <= lines, "a line that is not there: " + shown);
        ensure(complaint.place.column >= 0, "a column before the first: " + shown);
        ensure(static_cast<std::size_t>(complaint.place.column) <= characters(line_of(text, complaint.place.line)) + 1,
               "a column that is not there: " + shown);
    }
}

void ensure_column(int column, std::string_view text) {
    ensure(column >= 0 && static_cast<std::size_t>(column) <= characters(text) + 1,
           "a column that is not there: " + std::to_string(column));
}

void ensure_sound(const Facts& facts, const RuleBase& rule_base) {
    for (const Handle<Sign> handle : facts.known()) {
        ensure(handle.index < rule_base.signs.size(), "a sign that the rule base does not have");
        const Sign& sign = rule_base.signs[handle];
        const Observation& seen = *facts.find(handle);
        ensure_harmless(for_terminal(in_words(sign, seen)));
        Told again;
        const std::string typed = as_value(sign, seen) + std::string(sureness(seen.sureness));
        const auto fault = hear(again, rule_base, sign.id, typed, {});
        ensure(!fault, "typed again, '" + sign.id + "=" + typed + "' is refused: " + (fault ? fault->text : ""));
        const Observation* once_more = again.facts.find(handle);
        ensure(once_more && same(*once_more, seen), "typed again, '" + sign.id + "=" + typed + "' is another answer");
    }
}

const RuleBase& default_base() {
    static const RuleBase base = [] {
        RuleBaseReading reading = read_rule_base(default_rules());
        ensure(reading.complaints.empty(), "the default rule base does not read");
        return std::move(reading.rule_base);
    }();
    return base;
}

}  // namespace lidlift::fuzz
