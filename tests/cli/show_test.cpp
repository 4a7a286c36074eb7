// lidlift show: every kind and every entry, as text and as JSON.
#include "cli/render_show.hpp"
#include "engine/materials.hpp"
#include "engine/plain_text.hpp"
#include "tests/cli/program.hpp"
#include "tests/engine/short_rules.hpp"

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace cli_show_test {

using namespace lidlift;
using namespace lidlift::test;
using nlohmann::json;

namespace {

/// Lines wider than 80 columns, but for words that are wider by themselves.
std::string too_wide(const std::string& text) {
    std::string wide;
    std::istringstream stream(text);
    for (std::string line; std::getline(stream, line);)
        if (display_width(line) > 80) wide += line + "\n";
    return wide;
}

bool is_ascii(const std::string& text) {
    return std::all_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) < 0x80; });
}

}  // namespace

TEST_CASE("every entry of every kind is shown as text and as JSON", "[cli][show]") {
    const RuleBase& base = default_base();
    for (const std::string& kind : cli::show_kinds()) {
        const auto ids = cli::ids_of(base, kind);
        CAPTURE(kind);
        CHECK_FALSE(ids.empty());
        for (const std::string& id : ids) {
            CAPTURE(id);
            const std::string text = cli::show_entry(base, kind, id, false);
            CHECK(holds(text, id));
            CHECK(too_wide(text) == "");
            CHECK(is_tame(text));
            const std::string in_json = cli::show_entry(base, kind, id, true);
            CHECK(is_ascii(in_json));
            const json entry = json::parse(in_json);
            CHECK(entry.at("id") == id);
            if (kind != "conclusions" && kind != "sources" && kind != "words") CHECK_FALSE(entry.at("sources").empty());
        }
    }
}

TEST_CASE("the lists hold every entry once, in the rule base's order", "[cli][show]") {
    const RuleBase& base = default_base();
    for (const std::string& kind : cli::show_kinds()) {
        CAPTURE(kind);
        const auto ids = cli::ids_of(base, kind);
        const json list = json::parse(cli::show_list(base, kind, true));
        REQUIRE(list.size() == ids.size());
        for (std::size_t i = 0; i < ids.size(); ++i) CHECK(list[i].at("id") == ids[i]);
        const std::string text = cli::show_list(base, kind, false);
        CHECK(too_wide(text) == "");
        for (const std::string& id : ids) CHECK(holds(text, id + "\n"));
    }
    CHECK(cli::ids_of(base, "signs") == base.signs.ids());
    CHECK(cli::ids_of(base, "causes") == base.causes.ids());
}

TEST_CASE("a step's cautions stand before what it says to do", "[cli][show]") {
    const RuleBase& base = default_base();
    int checked = 0;
    for (const Step& step : base.steps) {
        if (step.cautions.empty()) continue;
        ++checked;
        const std::string text = cli::show_entry(base, "steps", step.id, false);
        CAPTURE(step.id);
        CHECK(text.find("cautions:") < text.find("\ndo:"));
    }
    CHECK(checked > 10);
}

TEST_CASE("a material shows every figure with range, standing, note and sources, its cautions first",
          "[cli][show][materials]") {
    const RuleBase& base = default_base();
    for (const Material& material : base.materials) {
        CAPTURE(material.id);
        const std::string text = unwrapped(cli::show_entry(base, "materials", material.id, false));
        const json entry = json::parse(cli::show_entry(base, "materials", material.id, true));
        for (const auto caution : material.cautions) {
            const std::size_t said = text.find(base.cautions[caution].id + ": ");
            REQUIRE(said != std::string::npos);
            CHECK(said < text.find("moisture: "));
        }
        for (const NamedFigure& named : figures_of(material)) {
            const std::string key(named.key);
            CAPTURE(key);
            CHECK(holds(text, key + ": " + figure_text(named) + ", " + standing_text(*named.figure)));
            CHECK(holds(text, unwrapped(named.figure->note)));
            const json& figure = entry.at(key);
            CHECK(figure.at("typical") == named.figure->value.typical);
            CHECK(figure.at("from") == named.figure->value.low);
            CHECK(figure.at("to") == named.figure->value.high);
            CHECK(figure.at("standing") == std::string(to_word(named.figure->standing)));
            CHECK(figure.contains("disputed") == named.figure->disputed);
            CHECK(figure.at("sources").size() == sources_of(*named.figure, material).size());
        }
    }
}

TEST_CASE("show finds a material by what people call it", "[cli][show][materials]") {
    const Run by_id = run({"show", "materials", "dry_leaves"});
    check_answer(by_id);
    CHECK(run({"show", "material", "Dead leaf"}).out == by_id.out);
    check_error(run({"show", "materials", "dry_levaes"}), 2, "did you mean 'dry_leaves'?");
    check_error(run({"show", "materials", "unobtainium"}), 2, "there is no material 'unobtainium'");
}

TEST_CASE("a source shows which figures of which materials rest on it", "[cli][show][materials]") {
    const std::string text = unwrapped(run({"show", "source", "citrus_trial"}).out);
    CHECK(holds(text, "material citrus_peel, for its moisture"));
    CHECK(holds(unwrapped(run({"show", "sources"}).out), "materials"));
}

TEST_CASE("the program shows what there is, lists and single entries", "[cli][show]") {
    const Run overview = run({"show"});
    check_answer(overview);
    for (const std::string& kind : cli::show_kinds()) {
        CAPTURE(kind);
        CHECK(holds(overview.out, kind));
        const Run list = run({"show", kind});
        check_answer(list);
        CHECK(list.out == cli::show_list(default_base(), kind, false));
        const std::string first = cli::ids_of(default_base(), kind).front();
        const Run entry = run({"show", kind, first});
        check_answer(entry);
        CHECK(entry.out == cli::show_entry(default_base(), kind, first, false));
        const Run in_json = run({"show", kind, first, "--json"});
        check_answer(in_json);
        CHECK(json::parse(in_json.out).at("id") == first);
    }
    const json counts = json::parse(run({"show", "--json"}).out);
    CHECK(counts.at("holds").at("signs") == default_base().signs.size());
    CHECK(counts.at("rule_base").at("name") == default_base().name);
}

TEST_CASE("one and many of a kind are the same word to the program", "[cli][show]") {
    const std::string signs = run({"show", "signs"}).out;
    CHECK(run({"show", "sign"}).out == signs);
    CHECK(run({"show", "clash"}).out == run({"show", "clashes"}).out);
}

}  // namespace cli_show_test
