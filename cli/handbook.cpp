#include "cli/handbook.hpp"

#include "cli/files.hpp"
#include "cli/handbook_document.hpp"
#include "cli/render_document.hpp"
#include "engine/nearest_name.hpp"

#include <algorithm>
#include <vector>

namespace lidlift::cli {

int handbook(const Options& options, const HandbookOptions& handbook_options) {
    static const std::vector<std::string> formats = {"markdown", "html"};
    const std::string& output = handbook_options.output;
    std::string format = handbook_options.format;
    if (format.empty()) format = output.ends_with(".html") || output.ends_with(".htm") ? "html" : "markdown";
    if (std::ranges::find(formats, format) == formats.end()) {
        const std::string hint = did_you_mean(format, formats);
        print_error("a handbook is written as markdown or html, not as '" + format + "'" +
                    (hint.empty() ? "" : " (" + hint + ")"));
        return unusable_input;
    }
    const Loaded loaded = load_rule_base(options);
    if (!loaded.rule_base) return loaded.exit;
    const Document document = handbook_document(*loaded.rule_base);
    const std::string text = options.json       ? render_document_json(document)
                             : format == "html" ? render_html(document)
                                                : render_markdown(document);
    if (output.empty() || output == "-") return print(text) ? done : cannot_read_or_write;
    if (const auto fault = write_file(output, text)) {
        print_error(fault->text);
        return cannot_read_or_write;
    }
    print_error("wrote " + output);
    return done;
}

}  // namespace lidlift::cli
