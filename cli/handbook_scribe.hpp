// What every chapter of the handbook is written with: headings that number themselves, lines that link, and the index that
// grows with every entry.
#pragma once

#include "cli/cross_references.hpp"
#include "cli/document.hpp"
#include "engine/rule_base.hpp"

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace lidlift::cli {

/// Lines put together: "a" + link + "b".
[[nodiscard]] inline Line plain(std::string text) { return {{std::move(text)}}; }
[[nodiscard]] inline Line strong(std::string text) { return {{std::move(text), Span::Look::strong}}; }
[[nodiscard]] inline Line emphasis(std::string text) { return {{std::move(text), Span::Look::emphasis}}; }
[[nodiscard]] inline Line code(std::string text) { return {{std::move(text), Span::Look::code}}; }
[[nodiscard]] Line operator+(Line first, Line second);
[[nodiscard]] Line operator+(Line first, const char* text);
/// The lines with `between` between them.
[[nodiscard]] Line joined(const std::vector<Line>& lines, const char* between);

/// "open_the_outlet" -> "open the outlet".
[[nodiscard]] std::string spoken(std::string id);
/// With its first letter as a capital, if it is one of a to z.
[[nodiscard]] std::string capitalised(std::string text);
/// At most about `most` bytes, cut at a blank and marked with "...".
[[nodiscard]] std::string shortened(const std::string& text, std::size_t most);
/// "20 %", "2.5 %", on one line.
[[nodiscard]] std::string percent(double share);
/// "sometimes (20 %)", or only the share where no word stands for it.
[[nodiscard]] std::string frequency_in_words(double share);

/// What a condition of one statement looks at, and what it wants to see there.
struct Observed {
    Line what;
    Line answer;
};

class Scribe {
public:
    explicit Scribe(const RuleBase& rule_base) : base(rule_base), refs(rule_base) {}

    const RuleBase& base;
    const CrossReferences refs;

    // ---- blocks
    void chapter(const std::string& anchor, const std::string& text);
    void group(const std::string& text);
    /// An entry's heading; it goes into the index under `name`.
    void entry(const std::string& kind, const std::string& id, const std::string& title, const std::string& name);
    void part(const std::string& text, const std::string& anchor = {});
    /// Puts what stands here under the heading KIND-ID into the index.
    void index_it(const std::string& kind, const std::string& id, const std::string& name);
    void paragraph(Line text) { add(Paragraph{std::move(text)}); }
    void aside(Line text) { add(Paragraph{std::move(text), true}); }
    void bullets(std::vector<Line> items, bool numbered = false);
    /// Nothing where there are no rows.
    void table(std::vector<std::string> header, std::vector<std::vector<Line>> rows);
    /// Rows with an empty text are left out.
    void particulars(std::vector<std::pair<std::string, Line>> rows);
    void add(Block block) { document_.blocks.push_back(std::move(block)); }
    /// Everything by name, each with the number of the part where it stands.
    void index();
    [[nodiscard]] Document take(std::string title);

    // ---- lines that link
    [[nodiscard]] Line link(Handle<Sign> handle) const;
    [[nodiscard]] Line link(Handle<Conclusion> handle) const;
    [[nodiscard]] Line link(Handle<Rule> handle) const;
    [[nodiscard]] Line link(Handle<Cause> handle) const;
    [[nodiscard]] Line link(Handle<Step> handle) const;
    [[nodiscard]] Line link(Handle<Caution> handle) const;
    [[nodiscard]] Line link(Handle<Clash> handle) const;
    [[nodiscard]] Line link(Handle<Material> handle) const;
    [[nodiscard]] Line link(Handle<Source> handle) const;
    template <class T>
    [[nodiscard]] Line links(const std::vector<Handle<T>>& handles, const char* between = "; ") const {
        std::vector<Line> lines;
        for (const auto handle : handles) lines.push_back(link(handle));
        return joined(lines, between);
    }
    [[nodiscard]] Line mentioners(const Mentioners& by) const;
    /// "Sources: ...", each with its standing.
    void sources(const Sources& sources);

    /// A condition as it was written, its signs and conclusions as links.
    [[nodiscard]] Line condition(const std::string& text) const;
    /// "dung in the feed: fresh dung went in (fresh)", the sign as a link.
    [[nodiscard]] Line answered(const Says& says) const;
    [[nodiscard]] Observed observed(const Condition& condition, const std::string& text) const;

    // ---- dangers
    /// Most dangerous first: stop, warn, note.
    [[nodiscard]] std::vector<Handle<Caution>> by_danger(std::vector<Handle<Caution>> cautions) const;
    /// What must be read before an entry's steps: those of level stop in full, the others by name.
    void warn_of(const std::vector<Handle<Caution>>& cautions);
    /// "CARE germs in dung and waste (K03)", as a link.
    [[nodiscard]] Line named(Handle<Caution> handle) const;

private:
    struct Indexed {
        std::string sorted_by;
        Line line;
    };
    Document document_;
    std::vector<Indexed> indexed_;
    int chapters_ = 0;
    int groups_ = 0;
};

// ---- the chapters, each in a source of its own
void write_how_to_read(Scribe& scribe);
void write_dangers(Scribe& scribe);
void write_signs(Scribe& scribe);
void write_causes(Scribe& scribe);
void write_steps(Scribe& scribe);
void write_clashes(Scribe& scribe);
void write_materials(Scribe& scribe);
void write_conclusions(Scribe& scribe);
void write_sources(Scribe& scribe);

/// What a step, once its cautions are said, tells: the check before it, what to do, how much.
[[nodiscard]] Line step_in_words(const Step& step);
/// "steps of kind lime", a step's link, "moisture up"; joined by commas.
[[nodiscard]] Line groups_in_words(const Scribe& scribe, const std::vector<StepGroup>& groups);

}  // namespace lidlift::cli
