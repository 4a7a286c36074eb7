#include "cli/handbook_scribe.hpp"

#include "engine/answers.hpp"
#include "engine/condition_grammar.hpp"
#include "engine/words.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include <fmt/format.h>

namespace lidlift::cli {
namespace {

/// "Z" and "z" stand together, and "The drain ..." under D.
std::string sorting_key(std::string text) {
    for (char& c : text)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    for (const std::string_view article : {"the ", "a ", "an "})
        if (text.starts_with(article)) return text.substr(article.size());
    return text;
}

void collect_names(const written::Condition& condition, std::vector<written::Name>& names);

void collect_names(const std::vector<written::Condition>& children, std::vector<written::Name>& names) {
    for (const written::Condition& child : children) collect_names(child, names);
}

/// The signs and conclusions that a condition names, with their columns; not its answers and units.
void collect_names(const written::Condition& condition, std::vector<written::Name>& names) {
    if (const auto* holds = std::get_if<written::Holds>(&condition.node)) names.push_back(holds->name);
    if (const auto* is = std::get_if<written::Is>(&condition.node)) names.push_back(is->sign);
    if (const auto* compare = std::get_if<written::Compare>(&condition.node)) names.push_back(compare->sign);
    if (const auto* known = std::get_if<written::IsKnown>(&condition.node)) names.push_back(known->name);
    if (const auto* negation = std::get_if<written::Not>(&condition.node)) collect_names(negation->child, names);
    if (const auto* both = std::get_if<written::And>(&condition.node)) collect_names(both->children, names);
    if (const auto* either = std::get_if<written::Or>(&condition.node)) collect_names(either->children, names);
    if (const auto* some = std::get_if<written::AtLeast>(&condition.node)) collect_names(some->children, names);
}

/// The byte at which the code point of column `column` (from 1) begins.
std::size_t byte_of(std::string_view text, int column) {
    int seen = 0;
    for (std::size_t i = 0; i < text.size(); ++i)
        if ((static_cast<unsigned char>(text[i]) & 0xC0) != 0x80 && ++seen == column) return i;
    return text.size();
}

std::string range_in_words(const Range& range, const Unit& unit) {
    const bool low = std::isfinite(range.low);
    const bool high = std::isfinite(range.high);
    if (low && high) return number_to_text(range.low) + " to " + quantity_to_text(range.high, unit);
    if (low) return (range.low_included ? "at least " : "above ") + quantity_to_text(range.low, unit);
    return (range.high_included ? "at most " : "below ") + quantity_to_text(range.high, unit);
}

Line answers_in_words(const Sign& sign, AnswerSet answers) {
    std::vector<Line> parts;
    for (std::size_t i = 0; i < sign.answers.size(); ++i) {
        if ((answers & answer_set(i)) == 0) continue;
        const Answer& answer = sign.answers[i];
        parts.push_back(answer.means.empty() ? plain(spoken(answer.id)) : plain(answer.means + " (") + code(answer.id) + ")");
    }
    return joined(parts, ", or ");
}

std::string anchor(const char* kind, const std::string& id) { return std::string(kind) + "-" + id; }

Line link_to(const char* kind, const std::string& id, std::string text) {
    return {{std::move(text), Span::Look::plain, anchor(kind, id)}};
}

}  // namespace

Line operator+(Line first, Line second) {
    std::ranges::move(second, std::back_inserter(first));
    return first;
}

Line operator+(Line first, const char* text) { return std::move(first) + plain(text); }

Line joined(const std::vector<Line>& lines, const char* between) {
    Line result;
    for (const Line& line : lines) {
        if (!result.empty()) result.push_back({between});
        result.insert(result.end(), line.begin(), line.end());
    }
    return result;
}

std::string spoken(std::string id) {
    std::ranges::replace(id, '_', ' ');
    return id;
}

std::string capitalised(std::string text) {
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') text.front() = static_cast<char>(text.front() - 'a' + 'A');
    return text;
}

std::string shortened(const std::string& text, std::size_t most) {
    if (text.size() <= most) return text;
    const std::size_t blank = text.rfind(' ', most);
    if (blank != std::string::npos && blank > 0) return text.substr(0, blank) + " ...";
    std::size_t end = most;  // one long word: cut between two characters
    while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0) == 0x80) --end;
    return text.substr(0, end) + "...";
}

std::string percent(double share) { return fmt::format("{:.3g}\u00A0%", 100 * share); }

std::string frequency_in_words(double share) {
    for (const std::string& word : frequency_words())
        if (*frequency(word) == share) return word + " (" + percent(share) + ")";
    return percent(share);
}

void Scribe::chapter(const std::string& anchor, const std::string& text) {
    ++chapters_;
    groups_ = 0;
    add(Heading{2, anchor, std::to_string(chapters_), text});
}

void Scribe::group(const std::string& text) {
    ++groups_;
    const std::string number = std::to_string(chapters_) + "." + std::to_string(groups_);
    add(Heading{3, fmt::format("part-{}-{}", chapters_, groups_), number, capitalised(text)});
}

void Scribe::entry(const std::string& kind, const std::string& id, const std::string& title, const std::string& name) {
    add(Heading{4, kind + "-" + id, {}, title});
    index_it(kind, id, name);
}

void Scribe::index_it(const std::string& kind, const std::string& id, const std::string& name) {
    const std::string where = kind + "-" + id;
    const std::string number = std::to_string(chapters_) + (groups_ > 0 ? "." + std::to_string(groups_) : "");
    Line line = {{name, Span::Look::plain, where}};
    indexed_.push_back(
        {sorting_key(name) + "\n" + where, std::move(line) + plain(" (" + kind + " ") + code(id) + plain(", " + number + ")")});
}

void Scribe::part(const std::string& text, const std::string& anchor) { add(Heading{5, anchor, {}, text}); }

void Scribe::bullets(std::vector<Line> items, bool numbered) {
    if (!items.empty()) add(Bullets{std::move(items), numbered});
}

void Scribe::table(std::vector<std::string> header, std::vector<std::vector<Line>> rows) {
    if (!rows.empty()) add(Table{std::move(header), std::move(rows)});
}

void Scribe::particulars(std::vector<std::pair<std::string, Line>> rows) {
    std::erase_if(rows, [](const auto& row) {
        return std::ranges::all_of(row.second, [](const Span& span) { return span.text.empty(); });
    });
    if (!rows.empty()) add(Particulars{std::move(rows)});
}

void Scribe::index() {
    std::ranges::sort(indexed_, {}, &Indexed::sorted_by);
    std::vector<Line> items;
    char letter = 0;
    const auto flush = [&] {
        bullets(std::move(items));
        items = {};
    };
    for (Indexed& indexed : indexed_) {
        const char first = indexed.sorted_by.front();
        const char its_letter = first >= 'a' && first <= 'z' ? static_cast<char>(first - 'a' + 'A') : '#';
        if (its_letter != letter) {
            flush();
            letter = its_letter;
            part(letter == '#' ? "Other" : std::string(1, letter));
        }
        items.push_back(std::move(indexed.line));
    }
    flush();
}

Document Scribe::take(std::string title) {
    document_.title = std::move(title);
    return std::move(document_);
}

Line Scribe::link(Handle<Sign> handle) const {
    const Sign& sign = base.signs[handle];
    return link_to("sign", sign.id, sign.name);
}
Line Scribe::link(Handle<Conclusion> handle) const {
    const Conclusion& conclusion = base.conclusions[handle];
    return link_to("conclusion", conclusion.id, conclusion.means);
}
Line Scribe::link(Handle<Rule> handle) const {
    const Rule& rule = base.rules[handle];
    return link_to("rule", rule.id, spoken(rule.id));
}
Line Scribe::link(Handle<Cause> handle) const {
    const Cause& cause = base.causes[handle];
    return link_to("cause", cause.id, (cause.code.empty() ? "" : cause.code + " ") + cause.name);
}
Line Scribe::link(Handle<Step> handle) const {
    const Step& step = base.steps[handle];
    return link_to("step", step.id, spoken(step.id));
}
Line Scribe::link(Handle<Caution> handle) const {
    const Caution& caution = base.cautions[handle];
    return link_to("caution", caution.id, caution.id + " " + caution.name);
}
Line Scribe::link(Handle<Clash> handle) const {
    const Clash& clash = base.clashes[handle];
    return link_to("clash", clash.id, spoken(clash.id));
}
Line Scribe::link(Handle<Material> handle) const {
    const Material& material = base.materials[handle];
    return link_to("material", material.id, material.name);
}
Line Scribe::link(Handle<Source> handle) const {
    const Source& source = base.sources[handle];
    if (source.place.line == 0) return link_to("source", source.id, spoken(source.id));
    return link_to("source", source.id, (source.by.empty() ? "" : source.by + ", ") + source.title);
}

Line Scribe::mentioners(const Mentioners& by) const {
    std::vector<Line> parts;
    const auto add_kind = [&](const char* kind, const auto& handles) {
        if (!handles.empty()) parts.push_back(plain(kind) + links(handles));
    };
    add_kind("causes: ", by.causes);
    add_kind("rules: ", by.rules);
    add_kind("cautions: ", by.cautions);
    add_kind("clashes: ", by.clashes);
    add_kind("steps: ", by.steps);
    add_kind("materials: ", by.materials);
    return joined(parts, ". In ");
}

void Scribe::sources(const Sources& sources) {
    std::vector<Line> lines;
    for (const auto handle : sources) {
        // The two sources that are always there say their standing by their names.
        const Source& source = base.sources[handle];
        lines.push_back(link(handle) + plain(source.place.line > 0 ? " (" + source.standing + ")" : ""));
    }
    if (!lines.empty()) aside(strong(lines.size() == 1 ? "Source: " : "Sources: ") + joined(lines, "; ") + ".");
}

Line Scribe::condition(const std::string& text) const {
    const auto condition = read_condition(text);
    if (!condition) return code(text);
    std::vector<written::Name> names;
    collect_names(*condition, names);
    Line line;
    std::size_t done = 0;
    for (const written::Name& name : names) {
        const std::size_t begin = byte_of(text, name.column);
        if (begin > done) line.push_back({text.substr(done, begin - done), Span::Look::code});
        const bool is_conclusion = base.conclusions.find(name.text).has_value();
        line.push_back({name.text, Span::Look::code, anchor(is_conclusion ? "conclusion" : "sign", name.text)});
        done = begin + name.text.size();
    }
    if (done < text.size()) line.push_back({text.substr(done), Span::Look::code});
    return line;
}

Line Scribe::answered(const Says& says) const {
    return link(says.sign) + ": " + answers_in_words(base.signs[says.sign], says.answers);
}

Observed Scribe::observed(const Condition& condition, const std::string& text) const {
    if (const auto* says = std::get_if<Says>(&condition.node))
        return {link(says->sign), answers_in_words(base.signs[says->sign], says->answers)};
    if (const auto* lies = std::get_if<Lies>(&condition.node))
        return {link(lies->sign), plain(range_in_words(lies->range, *base.signs[lies->sign].unit))};
    if (const auto* concluded = std::get_if<Concluded>(&condition.node)) return {link(concluded->conclusion), plain("yes")};
    return {this->condition(text), plain("holds")};
}

std::vector<Handle<Caution>> Scribe::by_danger(std::vector<Handle<Caution>> cautions) const {
    std::ranges::sort(cautions);
    cautions.erase(std::unique(cautions.begin(), cautions.end()), cautions.end());
    std::ranges::stable_sort(cautions, {}, [this](Handle<Caution> handle) { return base.cautions[handle].level; });
    return cautions;
}

Line Scribe::named(Handle<Caution> handle) const {
    return strong(std::string(called(base.cautions[handle].level)) + " ") + link(handle);
}

void Scribe::warn_of(const std::vector<Handle<Caution>>& cautions) {
    std::vector<Line> by_name;
    for (const auto handle : by_danger(cautions)) {
        const Caution& caution = base.cautions[handle];
        if (caution.level == Level::stop)
            add(Boxed{caution.level, link(handle), plain(caution.say)});
        else
            by_name.push_back(named(handle));
    }
    if (!by_name.empty()) paragraph(strong("First read: ") + joined(by_name, "; ") + ".");
}

}  // namespace lidlift::cli
