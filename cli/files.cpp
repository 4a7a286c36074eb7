#include "cli/files.hpp"

#include "engine/yaml_tree.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <system_error>

namespace lidlift::cli {
namespace {

namespace fs = std::filesystem;

Outcome<std::string> read_stream(std::istream& stream, const std::string& name, std::size_t limit) {
    std::string text(limit + 1, '\0');
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
    text.resize(static_cast<std::size_t>(stream.gcount()));
    if (stream.bad()) return Fault{"cannot read " + name, 0};
    if (text.size() > limit) return Fault{name + " is larger than " + std::to_string(limit / 1024) + " KiB", 0};
    return text;
}

std::string reason() { return std::strerror(errno); }

}  // namespace

Outcome<std::string> read_file(const std::string& path, std::size_t limit) {
    if (path == "-") return read_stream(std::cin, "standard input", limit);
    std::error_code error;
    const auto status = fs::status(path, error);
    if (error || !fs::exists(status))
        return Fault{"cannot read '" + path + "': " + (error ? error.message() : "there is no such file"), 0};
    if (fs::is_directory(status)) return Fault{"cannot read '" + path + "': it is a folder", 0};
    if (!fs::is_regular_file(status)) return Fault{"cannot read '" + path + "': it is not a regular file", 0};
    errno = 0;
    std::ifstream stream(path, std::ios::binary);
    if (!stream) return Fault{"cannot read '" + path + "': " + reason(), 0};
    return read_stream(stream, "'" + path + "'", limit);
}

Outcome<std::vector<RuleText>> read_rule_files(const std::string& path) {
    std::vector<std::string> paths;
    std::error_code error;
    if (fs::is_directory(path, error)) {
        for (auto entry = fs::directory_iterator(path, error); !error && entry != fs::directory_iterator();
             entry.increment(error)) {
            const bool own_file = entry->symlink_status(error).type() == fs::file_type::regular;
            if (!error && own_file && entry->path().extension() == ".yaml") paths.push_back(entry->path().string());
        }
        if (error) return Fault{"cannot read the folder '" + path + "': " + error.message(), 0};
        std::ranges::sort(paths);
        if (paths.empty()) return Fault{"the folder '" + path + "' holds no .yaml file", 0};
    } else {
        paths.push_back(path);
    }
    std::vector<RuleText> files;
    for (const std::string& file : paths) {
        auto text = read_file(file, largest_file);
        if (!text) return text.fault();
        files.push_back({file == "-" ? "standard input" : file, std::move(*text)});
    }
    return files;
}

std::optional<Fault> write_file(const std::string& path, const std::string& text) {
    errno = 0;
    std::ofstream stream(path, std::ios::binary | std::ios::trunc);
    stream.write(text.data(), static_cast<std::streamsize>(text.size()));
    stream.close();
    if (!stream) return Fault{"cannot write '" + path + "'" + (errno != 0 ? ": " + reason() : std::string{}), 0};
    return std::nullopt;
}

}  // namespace lidlift::cli
