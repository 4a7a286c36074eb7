// A small strict reader of XML for tests: elements, attributes, text, character references. Throws where it is not well-formed.
#pragma once

#include <cstdlib>
#include <map>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace lidlift::test {

struct XmlNode {
    std::string name;
    std::map<std::string, std::string> attributes;
    std::vector<XmlNode> children;
    std::string text;  ///< of this element alone
};

class XmlReader {
public:
    explicit XmlReader(std::string_view text) : text_(text) {}

    XmlNode document() {
        if (ahead("<?xml ")) at_ = text_.find("?>") + 2;
        blanks();
        XmlNode root = element();
        blanks();
        if (at_ != text_.size()) wrong("something after the root element");
        return root;
    }

private:
    [[noreturn]] void wrong(const std::string& what) const {
        throw std::runtime_error(what + " at byte " + std::to_string(at_));
    }
    [[nodiscard]] bool ahead(std::string_view part) const { return text_.substr(at_, part.size()) == part; }
    void expect(std::string_view part) {
        if (!ahead(part)) wrong("expected " + std::string(part));
        at_ += part.size();
    }
    static bool is_blank(char c) { return c == ' ' || c == '\n' || c == '\t' || c == '\r'; }
    bool blanks() {
        const std::size_t begin = at_;
        while (at_ < text_.size() && is_blank(text_[at_])) ++at_;
        return at_ > begin;
    }
    std::string name() {
        const std::size_t begin = at_;
        while (at_ < text_.size() && ((text_[at_] >= 'a' && text_[at_] <= 'z') || text_[at_] == '_')) ++at_;
        if (at_ == begin) wrong("expected a name");
        return std::string(text_.substr(begin, at_ - begin));
    }
    /// One character of text, references resolved.
    std::string character() {
        const char c = text_.at(at_);
        if (static_cast<unsigned char>(c) < 0x20 && !is_blank(c)) wrong("a control character");
        if (c != '&') return std::string(1, text_[at_++]);
        const std::size_t end = text_.find(';', at_);
        if (end == std::string_view::npos) wrong("a lone &");
        const std::string reference(text_.substr(at_ + 1, end - at_ - 1));
        static const std::map<std::string, std::string> known = {{"amp", "&"},  {"lt", "<"},   {"gt", ">"}, {"quot", "\""},
                                                                 {"apos", "'"}, {"#10", "\n"}, {"#9", "\t"}};
        if (known.count(reference) == 0) wrong("unknown reference " + reference);
        at_ = end + 1;
        return known.at(reference);
    }
    XmlNode element() {
        expect("<");
        XmlNode node;
        node.name = name();
        while (blanks() && !ahead("/") && !ahead(">")) {
            const std::string key = name();
            expect("=\"");
            std::string value;
            while (!ahead("\"")) {
                if (ahead("<")) wrong("< in an attribute");
                value += character();
            }
            expect("\"");
            if (!node.attributes.emplace(key, value).second) wrong("an attribute twice");
        }
        if (ahead("/>")) {
            at_ += 2;
            return node;
        }
        expect(">");
        while (!ahead("</")) {
            if (at_ >= text_.size()) wrong("it ends inside " + node.name);
            if (ahead("]]>")) wrong("]]> in text");
            if (ahead("<"))
                node.children.push_back(element());
            else
                node.text += character();
        }
        expect("</" + node.name + ">");
        return node;
    }

    std::string_view text_;
    std::size_t at_ = 0;
};

inline XmlNode parse_xml(const std::string& text) { return XmlReader(text).document(); }

}  // namespace lidlift::test
