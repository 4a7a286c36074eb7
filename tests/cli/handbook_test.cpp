// lidlift handbook: everything is in it, everything leads both ways, cautions come first, and a file is written whole or not at
// all.
#include "cli/handbook_document.hpp"
#include "cli/render_document.hpp"
#include "engine/materials.hpp"
#include "tests/cli/program.hpp"
#include "tests/engine/short_rules.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <sys/stat.h>
#include <vector>

#include <nlohmann/json.hpp>

namespace cli_handbook_test {

using namespace lidlift;
using namespace lidlift::cli;
using namespace lidlift::test;
namespace fs = std::filesystem;

namespace {

void add_lines(const Block& block, std::vector<Line>& lines) {
    if (const auto* paragraph = std::get_if<Paragraph>(&block)) lines.push_back(paragraph->text);
    if (const auto* bullets = std::get_if<Bullets>(&block))
        lines.insert(lines.end(), bullets->items.begin(), bullets->items.end());
    if (const auto* table = std::get_if<Table>(&block))
        for (const auto& row : table->rows) lines.insert(lines.end(), row.begin(), row.end());
    if (const auto* particulars = std::get_if<Particulars>(&block))
        for (const auto& row : particulars->rows) lines.push_back(row.second);
    if (const auto* box = std::get_if<Boxed>(&block)) {
        lines.push_back(box->title);
        lines.push_back(box->text);
    }
}

/// What stands under each anchor of an entry: its lines, in their order.
std::map<std::string, std::vector<Line>> entries_of(const Document& document) {
    std::map<std::string, std::vector<Line>> entries;
    std::string at;
    for (const Block& block : document.blocks) {
        if (const auto* heading = std::get_if<Heading>(&block)) {
            if (heading->level <= 4 || !heading->anchor.empty()) at = heading->anchor;
            entries[at].push_back({{heading->text}});
        } else {
            add_lines(block, entries[at]);
        }
    }
    return entries;
}

std::string text_of(const std::vector<Line>& lines) {
    std::string text;
    for (const Line& line : lines) {
        for (const Span& span : line) text += span.text;
        text += "\n";
    }
    return text;
}

bool leads(const std::vector<Line>& lines, const std::string& target) {
    return std::any_of(lines.begin(), lines.end(), [&](const Line& line) {
        return std::any_of(line.begin(), line.end(), [&](const Span& span) { return span.target == target; });
    });
}

const Document& default_handbook() {
    static const Document document = handbook_document(default_base());
    return document;
}

}  // namespace

TEST_CASE("every entry of the rule base has its place in the handbook, with all its texts", "[cli][handbook]") {
    const RuleBase& base = default_base();
    const auto entries = entries_of(default_handbook());
    const auto check = [&](const std::string& anchor, const std::vector<std::string>& texts) {
        CAPTURE(anchor);
        REQUIRE(entries.count(anchor) == 1);
        const std::string text = text_of(entries.at(anchor));
        for (const std::string& wanted : texts) {
            CAPTURE(wanted);
            CHECK(holds(text, wanted));
        }
    };
    for (const Sign& sign : base.signs) {
        std::vector<std::string> texts = {sign.ask, sign.check};
        for (const Answer& answer : sign.answers) {
            texts.push_back(answer.id);
            texts.push_back(answer.means);
            texts.insert(texts.end(), answer.heard_as.begin(), answer.heard_as.end());
        }
        check("sign-" + sign.id, texts);
    }
    for (const Conclusion& conclusion : base.conclusions) check("conclusion-" + conclusion.id, {});
    for (const Rule& rule : base.rules) check("rule-" + rule.id, {rule.when_text, rule.because});
    for (const Cause& cause : base.causes) {
        std::vector<std::string> texts = {cause.code,
                                          cause.name,
                                          cause.because,
                                          cause.how_common_words,
                                          cause.expect,
                                          cause.told_apart_by,
                                          cause.guides_differ,
                                          cause.cannot_be_when_text,
                                          cause.must_be_when_text};
        for (const Link& link : cause.links) texts.push_back(link.words);
        for (const Circumstance& circumstance : cause.made_likelier_by) texts.push_back(circumstance.words);
        for (const auto step : cause.steps) texts.push_back(base.steps[step].say);
        check("cause-" + cause.id, texts);
    }
    for (const Step& step : base.steps)
        check("step-" + step.id, {step.say, step.check_first, step.amount, step.because, step.never_when_text});
    for (const Caution& caution : base.cautions) check("caution-" + caution.id, {caution.name, caution.say, caution.when_text});
    for (const Clash& clash : base.clashes)
        check("clash-" + clash.id, {clash.say, clash.because, clash.when_text, clash.check_first});
    for (const Material& material : base.materials) {
        std::vector<std::string> texts = material.heard_as;
        texts.push_back(material.name);
        texts.push_back(material.note);
        for (const NamedFigure& named : figures_of(material)) {
            texts.push_back(figure_text(named));
            texts.push_back(standing_text(*named.figure));
            texts.push_back(named.figure->note);
        }
        check("material-" + material.id, texts);
    }
    for (const Source& source : base.sources)
        check("source-" + source.id, {source.title, source.by, source.where, source.standing});
}

TEST_CASE("anchors are unique and every link of the handbook arrives", "[cli][handbook]") {
    std::set<std::string> anchors;
    for (const Block& block : default_handbook().blocks)
        if (const auto* heading = std::get_if<Heading>(&block); heading && !heading->anchor.empty()) {
            CAPTURE(heading->anchor);
            CHECK(anchors.insert(heading->anchor).second);
        }
    std::size_t links = 0;
    for (const Block& block : default_handbook().blocks) {
        std::vector<Line> lines;
        add_lines(block, lines);
        for (const Line& line : lines)
            for (const Span& span : line) {
                if (span.target.empty()) continue;
                ++links;
                CAPTURE(span.target, span.text);
                CHECK(anchors.count(span.target) == 1);
                CHECK_FALSE(span.text.empty());
            }
    }
    CHECK(links > 2000);
}

TEST_CASE("what speaks of an entry is reached from it, and the other way round", "[cli][handbook]") {
    const RuleBase& base = default_base();
    const auto entries = entries_of(default_handbook());
    std::size_t pairs = 0;
    const auto both_ways = [&](const std::string& one, const std::string& other) {
        CAPTURE(one, other);
        CHECK(leads(entries.at(one), other));
        CHECK(leads(entries.at(other), one));
        ++pairs;
    };
    const auto sources = [&](const std::string& anchor, const Sources& list) {
        for (const auto source : list) both_ways(anchor, "source-" + base.sources[source].id);
    };
    const auto mentions = [&](const std::string& anchor, const Condition& condition) {
        const Mentions names = mentioned(condition);
        for (const auto sign : names.signs) both_ways(anchor, "sign-" + base.signs[sign].id);
        for (const auto conclusion : names.conclusions) both_ways(anchor, "conclusion-" + base.conclusions[conclusion].id);
    };
    for (const Cause& cause : base.causes) {
        const std::string anchor = "cause-" + cause.id;
        for (const Link& link : cause.links)
            mentions(anchor, std::visit([](const auto& when) { return Condition{when}; }, link.when));
        for (const Circumstance& circumstance : cause.made_likelier_by) mentions(anchor, circumstance.when);
        if (cause.cannot_be_when) mentions(anchor, *cause.cannot_be_when);
        if (cause.must_be_when) mentions(anchor, *cause.must_be_when);
        for (const auto step : cause.steps) both_ways(anchor, "step-" + base.steps[step].id);
        for (const auto caution : cause.cautions) both_ways(anchor, "caution-" + base.cautions[caution].id);
        for (const auto other : cause.brings_about) both_ways(anchor, "cause-" + base.causes[other].id);
        for (const auto other : cause.not_to_confuse_with) both_ways(anchor, "cause-" + base.causes[other].id);
        for (const Avoided& avoided : cause.avoid)
            if (const auto* clash = std::get_if<Handle<Clash>>(&avoided)) both_ways(anchor, "clash-" + base.clashes[*clash].id);
        sources(anchor, cause.sources);
    }
    for (const Step& step : base.steps) {
        const std::string anchor = "step-" + step.id;
        for (const auto caution : step.cautions) both_ways(anchor, "caution-" + base.cautions[caution].id);
        if (step.never_when) mentions(anchor, *step.never_when);
        sources(anchor, step.sources);
    }
    for (const Caution& caution : base.cautions) {
        if (caution.when) mentions("caution-" + caution.id, *caution.when);
        sources("caution-" + caution.id, caution.sources);
    }
    for (const Clash& clash : base.clashes) {
        if (clash.when) mentions("clash-" + clash.id, *clash.when);
        if (clash.find_out) both_ways("clash-" + clash.id, "sign-" + base.signs[*clash.find_out].id);
        sources("clash-" + clash.id, clash.sources);
    }
    for (const Rule& rule : base.rules) {
        mentions("rule-" + rule.id, rule.when);
        sources("rule-" + rule.id, rule.sources);
    }
    for (const Material& material : base.materials) {
        const std::string anchor = "material-" + material.id;
        for (const auto caution : material.cautions) both_ways(anchor, "caution-" + base.cautions[caution].id);
        for (const auto sign : material.shares) both_ways(anchor, "sign-" + base.signs[sign].id);
        for (const Says& says : material.tells) both_ways(anchor, "sign-" + base.signs[says.sign].id);
        for (const NamedFigure& named : figures_of(material)) sources(anchor, named.figure->sources);
        sources(anchor, material.sources);
    }
    for (const Sign& sign : base.signs) sources("sign-" + sign.id, sign.sources);
    CHECK(pairs > 1500);
}

TEST_CASE("in every entry the cautions stand before the step that needs them", "[cli][handbook]") {
    const RuleBase& base = default_base();
    const auto entries = entries_of(default_handbook());
    const auto first_link = [](const std::vector<Line>& lines, const std::string& target) {
        std::size_t at = 0;
        for (const Line& line : lines)
            for (const Span& span : line) {
                if (span.target == target) return at;
                at += span.text.size();
            }
        return std::string::npos;
    };
    const auto first_text = [](const std::vector<Line>& lines, const std::string& text) {
        std::string all;
        for (const Line& line : lines)
            for (const Span& span : line) all += span.text;
        return all.find(text);
    };
    for (const Step& step : base.steps) {
        const auto& lines = entries.at("step-" + step.id);
        const std::size_t said = first_text(lines, step.say);
        REQUIRE(said != std::string::npos);
        for (const auto handle : step.cautions) {
            const Caution& caution = base.cautions[handle];
            CAPTURE(step.id, caution.id);
            CHECK(first_link(lines, "caution-" + caution.id) < said);
            if (caution.level == Level::stop) CHECK(first_text(lines, caution.say) < said);
        }
    }
    for (const Cause& cause : base.causes) {
        const auto& lines = entries.at("cause-" + cause.id);
        for (const auto handle : cause.steps)
            for (const auto caution : base.steps[handle].cautions) {
                CAPTURE(cause.id, base.steps[handle].id, base.cautions[caution].id);
                CHECK(first_link(lines, "caution-" + base.cautions[caution].id) < first_text(lines, base.steps[handle].say));
            }
    }
    // And all of them in full before the first step of all, in both formats.
    for (const std::string& text : {render_markdown(default_handbook()), render_html(default_handbook())}) {
        const std::size_t steps = std::min(text.find("id=\"causes\""), text.find("id=\"steps\""));
        REQUIRE(steps != std::string::npos);
        for (const Caution& caution : base.cautions) {
            CAPTURE(caution.id);
            CHECK(text.find("id=\"caution-" + caution.id + "\"") < steps);
        }
    }
}

TEST_CASE("cautions of level stop come first, and a dangerous one is said by more than colour", "[cli][handbook]") {
    const RuleBase base =
        Rules().caution("K01", "level: note").caution("K02", "level: stop").step("dig", "cautions: [K01, K02]").base();
    const std::string html = render_html(handbook_document(base));
    CHECK(html.find("id=\"caution-K02\"") < html.find("id=\"caution-K01\""));
    CHECK(holds(html, "<div class=\"caution stop\" role=\"note\">\n<p class=\"word\"><strong>STOP</strong>"));
    const std::string markdown = render_markdown(handbook_document(base));
    CHECK(holds(
        markdown,
        "> **STOP** [K02 N of K02](#caution-K02)\n>\n> S of K02\n\n**First read:** **NOTE** [K01 N of K01](#caution-K01)."));
}

TEST_CASE("a cause that nothing is said of but the least is a whole entry", "[cli][handbook]") {
    const RuleBase base =
        Rules().sign("wet", "seen anyway: sometimes").cause("flood", "signs: [{when: wet, seen: usually}]").base();
    const std::string markdown = render_markdown(handbook_document(base));
    CHECK(holds(markdown,
                "#### <a id=\"cause-flood\"></a>N of flood\n\n`flood`, in rules.yaml\n\nB\n\n"
                "- **How common:** common (10\u00A0%)\n- **Stages:** any\n"));
    CHECK(holds(markdown, "| [wet](#sign-wet) | yes | **seen usually** (80\u00A0%) |"));
    CHECK(holds(markdown, "No step of its own."));
    CHECK(holds(markdown, "- [N of flood](#cause-flood) (cause `flood`, 4.1)"));
}

TEST_CASE("an empty rule base makes a short handbook", "[cli][handbook]") {
    const RuleBase base = base_of("{}");
    CHECK(holds(render_markdown(handbook_document(base)), "There are none."));
    CHECK(holds(render_html(handbook_document(base)), "</html>"));
}

TEST_CASE("a line with sources of its own names them, and they lead back", "[cli][handbook]") {
    const RuleBase base = base_of(
        "sources: {leaflet: {title: Leaflet, kind: trade, standing: read}}\n" +
        Rules()
            .sign("wet", "seen anyway: sometimes")
            .sign("dry", "seen anyway: sometimes")
            .cause("flood", "signs: [{when: wet, seen: usually, sources: [leaflet]}, {when: dry, points: slightly against}]")
            .text());
    const auto entries = entries_of(handbook_document(base));
    CHECK(leads(entries.at("cause-flood"), "source-leaflet"));
    CHECK(leads(entries.at("source-leaflet"), "cause-flood"));
    CHECK(holds(text_of(entries.at("cause-flood")), "as below"));
}

TEST_CASE("a hostile rule base writes a tame handbook", "[cli][handbook][hostile]") {
    const std::string evil = "\"<script>alert(1)</script> [x](javascript:y) `|` ![i](http://a.example)\\n\\n# big\"";
    const RuleBase base =
        Rules()
            .sign("wet", "name: " + evil + ", ask: " + evil + ", check: " + evil + ", topic: " + evil +
                             ", seen anyway: sometimes, answers: {yes: {means: " + evil + ", heard as: [" + evil + "]}}")
            .caution("K01", "name: " + evil + ", level: stop, say: " + evil)
            .step("dig", "do: " + evil + ", amount: " + evil + ", cautions: [K01]")
            .cause("flood", "name: " + evil + ", because: " + evil + ", code: " + evil + ", steps: [dig], avoid: [" + evil +
                                "], signs: [{when: wet, seen: usually}]")
            .base();
    const Document document = handbook_document(base);
    const std::string html = render_html(document);
    const std::string markdown = render_markdown(document);
    CHECK(is_tame(html));
    CHECK(is_tame(markdown));
    CHECK_FALSE(holds(html, "<script"));
    CHECK(holds(html, "&lt;script&gt;"));
    CHECK_FALSE(holds(markdown, " <script"));
    CHECK(holds(markdown, "\\](javascript"));
    CHECK_FALSE(holds(markdown, "x](javascript"));
    CHECK_FALSE(holds(markdown, "\n# big"));
}

TEST_CASE("handbook prints Markdown, HTML or JSON", "[cli][handbook]") {
    const Run markdown = run({"handbook"});
    check_answer(markdown);
    CHECK(markdown.out.rfind("# ", 0) == 0);
    CHECK(run({"handbook", "--format", "markdown"}).out == markdown.out);
    const Run html = run({"handbook", "--format=html"});
    check_answer(html);
    CHECK(html.out.rfind("<!DOCTYPE html>", 0) == 0);
    const Run json = run({"handbook", "--json"});
    check_answer(json);
    CHECK(nlohmann::json::parse(json.out)["title"] == "lidlift default rules, version " + default_base().version);
    CHECK(run({"handbook", "-o", "-"}).out == markdown.out);
    check_error(run({"handbook", "--format", "htm"}), 2, "did you mean 'html'?");
    check_error(run({"handbook", "chapter"}), 2, "one word too many");
    check_error(run({"handbook", "--only-rules", "/nowhere.yaml"}), 3, "there is no such file");
    CHECK(run({"handbook"}, {}, Stdout::full).exit == 3);
    check_answer(run({"handbook", "--help"}));
}

TEST_CASE("handbook writes a file whole or not at all", "[cli][handbook]") {
    const TemporaryFolder folder;
    const std::string rules = folder.write("mine.yaml", Rules().step("dig", "").text());
    const std::vector<std::string> only = {"handbook", "--only-rules", rules};
    const auto with = [&](std::vector<std::string> more) {
        more.insert(more.begin(), only.begin(), only.end());
        return run(more);
    };
    const std::string expected = with({}).out;
    const auto files = [&] { return std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator()); };

    const Run first = with({"-o", folder.path("book.md")});
    CHECK(first.exit == 0);
    CHECK(first.out.empty());
    CHECK(holds(first.err, "wrote "));
    CHECK(file_text(folder.path("book.md")) == expected);
    CHECK(files() == 2);

    CHECK(with({"--output", folder.path("book.html")}).exit == 0);
    CHECK(file_text(folder.path("book.html")).rfind("<!DOCTYPE html>", 0) == 0);
    CHECK(with({"--format", "markdown", "--output", folder.path("book.html")}).exit == 0);
    CHECK(file_text(folder.path("book.html")) == expected);

    // An earlier file keeps its permissions, and a link stays a link.
    folder.write("earlier.md", "earlier");
    chmod(folder.path("earlier.md").c_str(), 0640);
    fs::create_symlink("earlier.md", folder.path("link.md"));
    CHECK(with({"-o", folder.path("link.md")}).exit == 0);
    CHECK(fs::is_symlink(folder.path("link.md")));
    CHECK(file_text(folder.path("earlier.md")) == expected);
    CHECK((fs::status(folder.path("earlier.md")).permissions() & fs::perms::mask) == static_cast<fs::perms>(0640));
    CHECK(files() == 5);

    check_error(with({"-o", folder.path("no/such/folder.md")}), 3, "cannot write");
    check_error(with({"-o", folder.path()}), 3, "it is a folder");
    check_error(with({"-o", "/dev/full"}), 3, "cannot write");
    CHECK(with({"-o", "/dev/null"}).exit == 0);
    CHECK(files() == 5);
}

}  // namespace cli_handbook_test
