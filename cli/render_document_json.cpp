#include "cli/json_parts.hpp"
#include "cli/render_document.hpp"

#include <nlohmann/json.hpp>

namespace lidlift::cli {
namespace {

using Json = nlohmann::ordered_json;

std::string_view look_word(Span::Look look) {
    switch (look) {
        case Span::Look::plain:
            return "plain";
        case Span::Look::strong:
            return "strong";
        case Span::Look::emphasis:
            return "emphasis";
        case Span::Look::code:
            return "code";
    }
    return {};
}

Json spans(const Line& line) {
    Json list = Json::array();
    for (const Span& span : line) {
        Json item = {{"text", on_one_line(span.text)}};
        if (span.look != Span::Look::plain) item["look"] = look_word(span.look);
        if (!span.target.empty()) item["to"] = span.target;
        list.push_back(std::move(item));
    }
    return list;
}

Json block(const Heading& heading) {
    return {{"heading", on_one_line(heading.text)},
            {"level", heading.level},
            {"anchor", heading.anchor},
            {"number", heading.number}};
}
Json block(const Paragraph& paragraph) { return {{"paragraph", spans(paragraph.text)}, {"aside", paragraph.aside}}; }
Json block(const Bullets& bullets) {
    Json items = Json::array();
    for (const Line& item : bullets.items) items.push_back(spans(item));
    return {{"list", std::move(items)}, {"numbered", bullets.numbered}};
}
Json block(const Table& table) {
    Json rows = Json::array();
    for (const auto& row : table.rows) {
        Json cells = Json::array();
        for (const Line& cell : row) cells.push_back(spans(cell));
        rows.push_back(std::move(cells));
    }
    Json header = Json::array();
    for (const std::string& name : table.header) header.push_back(on_one_line(name));
    return {{"table", std::move(rows)}, {"header", std::move(header)}};
}
Json block(const Particulars& particulars) {
    Json rows = Json::array();
    for (const auto& [label, text] : particulars.rows) rows.push_back({{"label", on_one_line(label)}, {"text", spans(text)}});
    return {{"particulars", std::move(rows)}};
}
Json block(const Boxed& box) {
    return {{"caution", spans(box.text)}, {"level", to_word(box.level)}, {"title", spans(box.title)}};
}
Json block(const Contents&) { return {{"contents", true}}; }

}  // namespace

std::string render_document_json(const Document& document) {
    Json blocks = Json::array();
    for (const Block& one : document.blocks) blocks.push_back(std::visit([](const auto& kind) { return block(kind); }, one));
    const Json whole = {{"title", on_one_line(document.title)}, {"blocks", std::move(blocks)}};
    return dumped(whole);
}

}  // namespace lidlift::cli
