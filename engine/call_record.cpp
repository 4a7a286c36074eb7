#include "engine/call_record.hpp"

#include <cmath>

namespace lidlift {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_joiner(char c) { return c == ' ' || c == '-' || c == '.' || c == '/' || c == '(' || c == ')' || c == '+'; }
bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n'; }

/// A YAML scalar in double quotes. What is read from a person holds no control characters but tabs and line feeds.
std::string as_scalar(std::string_view text) {
    std::string result = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\') result += '\\';
        if (c == '\n')
            result += "\\n";
        else if (c == '\t')
            result += "\\t";
        else
            result += c;
    }
    return result + "\"";
}

std::string list(const std::vector<std::string>& names) {
    std::string result;
    for (const std::string& name : names) result += (result.empty() ? "" : ", ") + name;
    return "[" + result + "]";
}

/// A chance with four digits, the same on every machine.
std::string chance_text(double chance) {
    const std::string digits = std::to_string(10000 + std::lround(chance * 10000));
    return std::string(1, static_cast<char>(digits.front() - 1)) + "." + digits.substr(1);
}

std::string answer(const RecordedAnswer& answer) {
    std::string text = "{sign: " + answer.sign + ", is: " + as_scalar(answer.is);
    if (answer.sure != Sureness::sure) text += ", sure: " + sureness_words()[static_cast<std::size_t>(answer.sure)];
    if (!answer.from.empty()) text += ", from: " + as_scalar(answer.from);
    return text + "}";
}

std::string entry(const CallEntry& entry) {
    std::string text = "  - when: " + to_text(entry.when) + "\n";
    const auto line = [&](const std::string& key, const std::string& value) { text += "    " + key + ": " + value + "\n"; };
    const auto said = [&](const std::string& key) { line(key, as_scalar(entry.words)); };
    const auto heard = [&] {
        if (entry.heard.empty()) return;
        text += "    heard:\n";
        for (const RecordedAnswer& one : entry.heard) text += "      - " + answer(one) + "\n";
    };
    switch (entry.kind) {
        case CallEntry::Kind::words:
            said("words");
            heard();
            break;
        case CallEntry::Kind::news:
            said("news");
            heard();
            break;
        case CallEntry::Kind::safety:
            line("safety", list(entry.signs));
            said("words");
            heard();
            break;
        case CallEntry::Kind::asked:
            line("asked", entry.sign);
            said("words");
            heard();
            break;
        case CallEntry::Kind::changed:
            line("changed", entry.sign);
            said("words");
            heard();
            break;
        case CallEntry::Kind::back:
            line("back", "yes");
            break;
        case CallEntry::Kind::advised:
            text += "    advised:\n";
            text += "      because: " + entry.advice.because + "\n";
            text += "      causes:\n";
            for (const RecordedChance& cause : entry.advice.causes)
                text += "        - {cause: " + cause.cause + ", chance: " + chance_text(cause.chance) + "}\n";
            if (entry.advice.causes.empty()) text.replace(text.size() - 1, 1, " []\n");
            text += "      nothing listed: " + chance_text(entry.advice.nothing_listed) + "\n";
            text += "      steps: " + list(entry.advice.steps) + "\n";
            text += "      cautions: " + list(entry.advice.cautions) + "\n";
            break;
        case CallEntry::Kind::follow_up: {
            std::string inside;
            if (entry.follow_up.done) inside = "done: " + done_words()[static_cast<std::size_t>(*entry.follow_up.done)];
            if (entry.follow_up.helped)
                inside += (inside.empty() ? "helped: " : ", helped: ") +
                          helped_words()[static_cast<std::size_t>(*entry.follow_up.helped)];
            line("follow up", "{" + inside + "}");
            break;
        }
        case CallEntry::Kind::confirmed:
            line("confirmed", "{causes: " + list(entry.confirmed.causes) +
                                  (entry.confirmed.how ? ", how: " + how_words()[static_cast<std::size_t>(*entry.confirmed.how)]
                                                       : std::string{}) +
                                  "}");
            break;
    }
    return text;
}

}  // namespace

std::string write_call(const CallRecord& record) {
    std::string text =
        "# A call record of lidlift. What it holds is described in rules/CALLS.md.\n"
        "# Names, addresses and telephone numbers do not belong here.\n"
        "call:\n";
    text += std::string("  state: ") + (record.closed ? "closed" : "open") + "\n";
    text += "  begun: " + to_text(record.begun) + "\n";
    text += "  rule base: " + as_scalar(record.rule_base) + "\n";
    text += "  version: " + as_scalar(record.version) + "\n";
    if (!record.tank.empty()) text += "  tank: " + as_scalar(record.tank) + "\n";
    if (!record.bay.empty()) text += "  bay: " + as_scalar(record.bay) + "\n";
    text += record.course.empty() ? "course: []\n" : "course:\n";
    for (const CallEntry& one : record.course) text += entry(one);
    return text;
}

std::string without_numbers_of_people(std::string_view text) {
    constexpr std::size_t digits_of_a_telephone = 7;
    std::string result;
    for (std::size_t i = 0; i < text.size();) {
        const bool begins_word = i == 0 || !is_digit(text[i - 1]);
        if (begins_word && (is_digit(text[i]) || text[i] == '+' || text[i] == '(')) {
            std::size_t end = i;
            std::size_t last_digit = i;
            std::size_t digits = 0;
            // One joiner, or a bracket beside one, stands between the groups of one number.
            for (std::size_t gap = 0; end < text.size() && gap <= 2; ++end) {
                if (is_digit(text[end])) {
                    ++digits;
                    gap = 0;
                    last_digit = end;
                } else if (is_joiner(text[end])) {
                    ++gap;
                } else {
                    break;
                }
            }
            if (digits >= digits_of_a_telephone) {
                result += "(number left out)";
                i = last_digit + 1;
                continue;
            }
        }
        result += text[i++];
    }
    std::string kept;
    for (std::size_t i = 0; i < result.size();) {
        std::size_t end = i;
        while (end < result.size() && !is_blank(result[end])) ++end;
        const std::string_view word = std::string_view(result).substr(i, end - i);
        const auto at = word.find('@');
        const bool address = at != std::string_view::npos && at > 0 && word.find('.', at) != std::string_view::npos;
        kept += address ? "(address left out)" : std::string(word);
        if (end < result.size()) kept += result[end++];
        i = end;
    }
    return kept;
}

std::vector<const CallEntry*> what_counts(const CallRecord& record) {
    std::vector<const CallEntry*> result;
    for (const CallEntry& one : record.course) {
        if (one.kind != CallEntry::Kind::back) {
            result.push_back(&one);
            continue;
        }
        // Only an exchange can be taken back; advice that was given stays given.
        for (std::size_t i = result.size(); i-- > 0;)
            if (result[i]->kind <= CallEntry::Kind::news) {
                result.erase(result.begin() + static_cast<std::ptrdiff_t>(i));
                break;
            }
    }
    return result;
}

const std::vector<std::string>& sureness_words() {
    static const std::vector<std::string> words = {"sure", "unsure", "guess"};
    return words;
}
const std::vector<std::string>& done_words() {
    static const std::vector<std::string> words = {"all", "partly", "nothing"};
    return words;
}
const std::vector<std::string>& helped_words() {
    static const std::vector<std::string> words = {"solved", "better", "same", "worse", "unknown"};
    return words;
}
const std::vector<std::string>& how_words() {
    static const std::vector<std::string> words = {"seen", "remedy worked", "guess"};
    return words;
}

}  // namespace lidlift
