#include "engine/call_record_reader.hpp"

#include "engine/reader/entry.hpp"
#include "engine/yaml_tree.hpp"

#include <array>
#include <optional>
#include <utility>

namespace lidlift {
namespace {

using reader::Entry;
using reader::Need;
using Kind = CallEntry::Kind;

/// The key that says what an entry is.
constexpr std::array<std::pair<std::string_view, Kind>, 9> kinds = {{{"words", Kind::words},
                                                                     {"safety", Kind::safety},
                                                                     {"asked", Kind::asked},
                                                                     {"changed", Kind::changed},
                                                                     {"news", Kind::news},
                                                                     {"back", Kind::back},
                                                                     {"advised", Kind::advised},
                                                                     {"follow up", Kind::follow_up},
                                                                     {"confirmed", Kind::confirmed}}};

bool words_may_stand_beside(Kind kind) { return kind == Kind::safety || kind == Kind::asked || kind == Kind::changed; }

class CallReader {
public:
    explicit CallReader(Complaints& complaints) : complaints_(complaints) {}

    CallRecord read(const YamlNode& tree) {
        Entry file(tree, "a call record", complaints_);
        const YamlNode* call = file.node("call", Need::required);
        const YamlNode* course = file.node("course", Need::required);
        file.finish();
        CallRecord record;
        if (call) head(*call, record);
        if (course && course->kind == YamlNode::Kind::map) {
            complaints_.add(course->place, "'course' should be a list");
        } else if (course) {
            if (course->items.size() > longest_course)
                complaints_.add(course->items[longest_course].place,
                                "a call holds at most " + std::to_string(longest_course) + " entries");
            else
                for (const YamlNode& item : course->items) record.course.push_back(entry(item));
        }
        return record;
    }

private:
    void head(const YamlNode& node, CallRecord& record) {
        static const std::vector<std::string> states = {"open", "closed"};
        Entry head(node, "'call'", complaints_);
        record.closed = head.word("state", states, Need::required) == std::size_t{1};
        record.begun = moment(head, "begun");
        record.rule_base = head.text("rule base", Need::required);
        record.version = head.text("version", Need::required);
        record.tank = head.text("tank");
        record.bay = head.text("bay");
        head.finish();
    }

    Moment moment(Entry& entry, std::string_view key) {
        const YamlNode* node = entry.node(key, Need::required);
        if (!node || !reader::require_text(*node, "'" + std::string(key) + "'", complaints_)) return {};
        const auto read = read_moment(node->text);
        if (read) return *read;
        Place place = node->place;
        if (node->plain && read.fault().column > 0) place.column += read.fault().column - 1;
        complaints_.add(std::move(place), read.fault().text);
        return {};
    }

    std::string name(Entry& entry, std::string_view key) {
        const YamlNode* node = entry.node(key, Need::required);
        return node ? name(*node) : std::string{};
    }
    std::string name(const YamlNode& node) {
        if (!reader::require_text(node, "a name", complaints_)) return {};
        if (!reader::is_id(node.text, true)) complaints_.add(node.place, "'" + node.text + "' cannot be a name");
        return node.text;
    }
    std::vector<std::string> names(Entry& entry, std::string_view key) {
        std::vector<std::string> result;
        for (const YamlNode* item : entry.list(key, Need::required)) result.push_back(name(*item));
        return result;
    }

    /// What a person typed; it may be nothing.
    std::string typed(Entry& entry, std::string_view key) {
        const YamlNode* node = entry.node(key);
        if (!node || (node->kind == YamlNode::Kind::text && node->text.empty())) return {};
        return reader::require_text(*node, "'" + std::string(key) + "'", complaints_) ? node->text : std::string{};
    }

    double chance(Entry& entry, std::string_view key) {
        const auto number = entry.number(key, Need::required);
        if (number && (*number < 0 || *number > 1))
            entry.complain(entry.node(key)->place, "'" + std::string(key) + "' is a chance, from 0 to 1");
        return number.value_or(0);
    }

    CallEntry entry(const YamlNode& node) {
        Entry entry(node, "an entry of 'course'", complaints_);
        CallEntry result;
        result.when = moment(entry, "when");
        const Kind* kind = nullptr;
        for (const auto& [key, meaning] : kinds) {
            if (!entry.node(key)) continue;
            // A question has `words` beside what it is; everything else stands alone.
            if (!kind || (*kind == Kind::words && words_may_stand_beside(meaning)))
                kind = &meaning;
            else
                entry.complain(entry.place(),
                               "an entry is one thing only; this one has '" + std::string(key) + "' beside another");
        }
        if (!kind) {
            if (node.kind == YamlNode::Kind::map && !node.cut_off)
                entry.complain(
                    entry.place(),
                    "an entry says one of: words, safety, asked, changed, news, back, advised, follow up, confirmed");
            entry.finish();
            return result;
        }
        result.kind = *kind;
        inside(entry, result);
        entry.finish();
        return result;
    }

    void inside(Entry& entry, CallEntry& result) {
        switch (result.kind) {
            case Kind::news:
                result.words = typed(entry, "news");
                heard(entry, result);
                break;
            case Kind::safety:
                result.signs = names(entry, "safety");
                result.words = typed(entry, "words");
                heard(entry, result);
                break;
            case Kind::asked:
            case Kind::changed:
                result.sign = name(entry, result.kind == Kind::asked ? "asked" : "changed");
                result.words = typed(entry, "words");
                heard(entry, result);
                break;
            case Kind::words:
                result.words = typed(entry, "words");
                heard(entry, result);
                break;
            case Kind::back:
                if (!entry.yes_no("back", true)) entry.complain(entry.place(), "'back' is always yes");
                break;
            case Kind::advised:
                result.advice = advice(*entry.node("advised"));
                break;
            case Kind::follow_up:
                result.follow_up = follow_up(*entry.node("follow up"));
                break;
            case Kind::confirmed:
                result.confirmed = confirmed(*entry.node("confirmed"));
                break;
        }
    }

    void heard(Entry& entry, CallEntry& result) {
        for (const YamlNode* item : entry.list("heard")) {
            Entry answer(*item, "an answer that was heard", complaints_);
            RecordedAnswer one;
            one.sign = name(answer, "sign");
            one.is = answer.text("is", Need::required);
            if (const auto sure = answer.word("sure", sureness_words())) one.sure = static_cast<Sureness>(*sure);
            one.from = answer.text("from");
            answer.finish();
            result.heard.push_back(std::move(one));
        }
    }

    RecordedAdvice advice(const YamlNode& node) {
        Entry entry(node, "'advised'", complaints_);
        RecordedAdvice result;
        if (const auto because = entry.word("because", stop_words(), Need::required)) result.because = stop_words()[*because];
        for (const YamlNode* item : entry.list("causes", Need::required)) {
            Entry cause(*item, "a cause that was advised on", complaints_);
            RecordedChance one;
            one.cause = name(cause, "cause");
            one.chance = chance(cause, "chance");
            cause.finish();
            result.causes.push_back(std::move(one));
        }
        result.nothing_listed = chance(entry, "nothing listed");
        result.steps = names(entry, "steps");
        result.cautions = names(entry, "cautions");
        entry.finish();
        return result;
    }

    FollowUp follow_up(const YamlNode& node) {
        Entry entry(node, "'follow up'", complaints_);
        FollowUp result;
        if (const auto done = entry.word("done", done_words())) result.done = static_cast<FollowUp::Done>(*done);
        if (const auto helped = entry.word("helped", helped_words())) result.helped = static_cast<FollowUp::Helped>(*helped);
        entry.finish();
        return result;
    }

    ConfirmedCause confirmed(const YamlNode& node) {
        Entry entry(node, "'confirmed'", complaints_);
        ConfirmedCause result;
        result.causes = names(entry, "causes");
        if (const auto how = entry.word("how", how_words())) result.how = static_cast<ConfirmedCause::How>(*how);
        entry.finish();
        return result;
    }

    Complaints& complaints_;
};

}  // namespace

CallRecord read_call(std::string_view text, const std::string& file, Complaints& complaints) {
    return CallReader(complaints).read(read_yaml(text, file, complaints));
}

const std::vector<std::string>& stop_words() {
    static const std::vector<std::string> words = {"sure enough",   "nothing worth asking", "nothing would change",
                                                   "ten questions", "said to stop",         "end of input",
                                                   "emergency"};
    return words;
}

}  // namespace lidlift
