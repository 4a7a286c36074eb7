// Text into HTML: all escaping of our pages is here.
#pragma once

#include <string>
#include <string_view>

namespace lidlift::cli {

/// `raw` on one line, safe between marks and in quoted attributes.
[[nodiscard]] std::string escaped(std::string_view raw);

/// <name>inside</name>; `inside` is HTML already.
[[nodiscard]] std::string element(const char* name, const std::string& inside);

/// A page up to and with <body>; `more_head` is HTML already, a line of the head.
[[nodiscard]] std::string beginning_of_page(const std::string& title, const char* style, const char* color_scheme,
                                            const std::string& more_head = {});

}  // namespace lidlift::cli
