// Text into HTML: all escaping of our pages is here.
#pragma once

#include <string>
#include <string_view>

namespace lidlift::cli {

/// `raw` on one line, safe between marks and in quoted attributes.
[[nodiscard]] std::string escaped(std::string_view raw);

/// <name>inside</name>; `inside` is HTML already.
[[nodiscard]] std::string element(const char* name, const std::string& inside);

/// A page up to and with <body>: nothing is fetched and no script runs, whatever stands in it.
[[nodiscard]] std::string beginning_of_page(const std::string& title, const char* style, const char* color_scheme);

}  // namespace lidlift::cli
