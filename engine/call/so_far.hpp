// What a call has told so far: its record, and the answers that count in it.
#pragma once

#include "engine/answers.hpp"
#include "engine/call/shown.hpp"
#include "engine/call_record.hpp"
#include "engine/call_told.hpp"
#include "engine/rule_base.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift {

class CallSoFar {
public:
    /// `known` is what is known before anybody calls; what the caller says counts for more.
    CallSoFar(const RuleBase& rule_base, Told known);

    void begin(Moment now, std::string tank, std::string bay);
    /// Goes on from a record, under the rule base of today. The answers that could not be taken, in words.
    [[nodiscard]] std::vector<std::string> go_on_from(CallRecord record);

    [[nodiscard]] const CallRecord& record() const { return record_; }
    [[nodiscard]] const Told& told() const { return told_; }
    [[nodiscard]] const RuleBase& rule_base() const { return rule_base_; }

    /// Adds an exchange; what of it could not be taken.
    [[nodiscard]] std::vector<CallMisfit> add(CallEntry entry);
    /// Adds an exchange, says what was taken, and leaves out of it what goes against an earlier answer. A danger does not give
    /// way to what was said before: it changes that answer, in an entry of its own.
    void take(CallEntry entry, std::vector<std::string> not_used, std::vector<Shown>& out);
    /// As if the last entry had never been added.
    void drop_last();
    /// Adds an event that tells nothing of the bed.
    void note(CallEntry event) { record_.course.push_back(std::move(event)); }
    void close() { record_.closed = true; }

    [[nodiscard]] bool is_answered(Handle<Sign> sign) const;  ///< or not known to the caller
    [[nodiscard]] shown::Line line_of(Handle<Sign> sign) const;
    [[nodiscard]] std::vector<shown::Line> lines() const;

    /// Questions since the last advice.
    [[nodiscard]] std::size_t questions_asked() const;
    /// Of the last question; before the first, of what the caller told last; empty: nothing was told.
    [[nodiscard]] std::string_view topic() const;
    /// What the caller told unasked.
    [[nodiscard]] std::vector<Handle<Sign>> called_about() const;
    [[nodiscard]] bool asked_after_dangers() const;
    /// The last exchange or event that counts; null: nothing was said yet.
    [[nodiscard]] const CallEntry* last() const;

private:
    [[nodiscard]] std::vector<CallMisfit> tell_all();

    const RuleBase& rule_base_;
    Told known_;
    Told told_;
    CallRecord record_;
};

/// Something was said, as against advice and what followed it.
[[nodiscard]] inline bool is_exchange(const CallEntry& entry) { return entry.kind <= CallEntry::Kind::news; }

/// "strong,unsure" -> "strong" and how sure.
[[nodiscard]] RecordedAnswer recorded(const std::string& sign, std::string value, std::string from);

}  // namespace lidlift
