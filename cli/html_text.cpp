#include "cli/html_text.hpp"

#include "cli/document.hpp"

namespace lidlift::cli {

std::string escaped(std::string_view raw) {
    std::string result;
    for (const char c : on_one_line(raw)) {
        if (c == '&')
            result += "&amp;";
        else if (c == '<')
            result += "&lt;";
        else if (c == '>')
            result += "&gt;";
        else if (c == '"')
            result += "&quot;";
        else if (c == '\'')
            result += "&#39;";
        else
            result += c;
    }
    return result;
}

std::string element(const char* name, const std::string& inside) {
    return std::string("<") + name + ">" + inside + "</" + name + ">";
}

std::string beginning_of_page(const std::string& title, const char* style, const char* color_scheme,
                              const std::string& more_head) {
    std::string text = "<!DOCTYPE html>\n<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\">\n" + more_head;
    text += "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
    text += std::string("<meta name=\"color-scheme\" content=\"") + color_scheme + "\">\n";
    text += element("title", escaped(title)) + "\n<style>\n" + style + "</style>\n</head>\n<body>\n";
    return text;
}

}  // namespace lidlift::cli
