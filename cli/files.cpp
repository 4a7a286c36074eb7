#include "cli/files.hpp"

#include "engine/yaml_tree.hpp"

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

namespace lidlift::cli {
namespace {

namespace fs = std::filesystem;

std::string reason() { return std::strerror(errno); }

Outcome<std::string> read_stream(std::istream& stream, const std::string& name, std::size_t limit) {
    std::string text(limit + 1, '\0');
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
    text.resize(static_cast<std::size_t>(stream.gcount()));
    if (stream.bad()) return Fault{"cannot read " + name, 0};
    if (text.size() > limit) return Fault{name + " is larger than " + std::to_string(limit / 1024) + " KiB", 0};
    return text;
}

/// Writes all of `text` and makes sure that it has reached the disk; closes the file in any case.
bool write_and_close(int file, const std::string& text, bool to_disk) {
    std::size_t written = 0;
    while (written < text.size()) {
        const ssize_t count = ::write(file, text.data() + written, text.size() - written);
        if (count < 0 && errno == EINTR) continue;
        if (count <= 0) break;
        written += static_cast<std::size_t>(count);
    }
    bool good = written == text.size() && (!to_disk || ::fsync(file) == 0);
    const int why = errno;
    good = ::close(file) == 0 && good;
    if (!good && why != 0) errno = why;
    return good;
}

/// A file beside `target` that was not there before, open for writing; -1 when none can be made.
int create_beside(const fs::path& target, fs::path& made) {
    constexpr int attempts = 100;
    for (int i = 0; i < attempts; ++i) {
        made = target.parent_path() / (".lidlift-" + std::to_string(::getpid()) + "-" + std::to_string(i) + ".new");
        const int file = ::open(made.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file >= 0 || errno != EEXIST) return file;
    }
    return -1;
}

}  // namespace

Outcome<std::string> read_file(const std::string& path, std::size_t limit) {
    if (path == "-") {
        errno = 0;
        auto text = read_stream(std::cin, "standard input", limit);
        // The stream of C++ takes an error for the end.
        if (std::ferror(stdin)) return Fault{"cannot read standard input: " + reason(), 0};
        return text;
    }
    std::error_code error;
    const auto status = fs::status(path, error);
    if (error || !fs::exists(status))
        return Fault{"cannot read '" + path +
                         "': " + (status.type() == fs::file_type::not_found ? "there is no such file" : error.message()),
                     0};
    if (fs::is_directory(status)) return Fault{"cannot read '" + path + "': it is a folder", 0};
    if (!fs::is_regular_file(status)) return Fault{"cannot read '" + path + "': it is not a regular file", 0};
    errno = 0;
    std::ifstream stream(path, std::ios::binary);
    if (!stream) return Fault{"cannot read '" + path + "': " + reason(), 0};
    return read_stream(stream, "'" + path + "'", limit);
}

Outcome<std::vector<std::string>> yaml_files(const std::string& path, std::size_t most) {
    std::error_code error;
    if (!fs::is_directory(path, error)) return std::vector<std::string>{path};
    std::vector<std::string> paths;
    for (auto entry = fs::directory_iterator(path, error); !error && entry != fs::directory_iterator();
         entry.increment(error)) {
        const auto type = entry->symlink_status(error).type();
        if (error || entry->path().extension() != ".yaml") continue;
        // Passing over it would lose what stands there without a word; following it would read what nobody named.
        if (type == fs::file_type::symlink)
            return Fault{"'" + entry->path().string() +
                             "' is a link, and links in a folder are not followed; name the file that it leads to",
                         0};
        if (type == fs::file_type::regular) paths.push_back(entry->path().string());
        if (paths.size() > most)
            return Fault{"the folder '" + path + "' holds more than " + std::to_string(most) + " .yaml files", 0};
    }
    if (error) return Fault{"cannot read the folder '" + path + "': " + error.message(), 0};
    if (paths.empty()) return Fault{"the folder '" + path + "' holds no .yaml file", 0};
    std::ranges::sort(paths);
    return paths;
}

Outcome<std::vector<RuleText>> read_rule_files(const std::string& path) {
    const auto paths = yaml_files(path, most_rule_files);
    if (!paths) return paths.fault();
    std::vector<RuleText> files;
    for (const std::string& file : *paths) {
        auto text = read_file(file, largest_file);
        if (!text) return text.fault();
        files.push_back({file == "-" ? "standard input" : file, std::move(*text)});
    }
    return files;
}

std::optional<Fault> write_file(const std::string& path, const std::string& text) {
    const auto fault = [&](const std::string& why) { return Fault{"cannot write '" + path + "': " + why, 0}; };
    std::error_code error;
    fs::path target = path;
    if (fs::is_symlink(fs::symlink_status(target, error))) {
        target = fs::weakly_canonical(target, error);
        if (error) return fault(error.message());
    }
    const auto status = fs::status(target, error);
    if (fs::is_directory(status)) return fault("it is a folder");
    errno = 0;
    if (fs::exists(status) && !fs::is_regular_file(status)) {
        const int file = ::open(target.c_str(), O_WRONLY | O_CLOEXEC);
        if (file < 0 || !write_and_close(file, text, false)) return fault(reason());
        return std::nullopt;
    }
    fs::path beside;
    const int file = create_beside(target, beside);
    if (file < 0) return fault(reason());
    if (fs::exists(status)) (void)::fchmod(file, static_cast<mode_t>(status.permissions()));  // as readable as it was
    const bool good = write_and_close(file, text, true) && ::rename(beside.c_str(), target.c_str()) == 0;
    if (!good) {
        const auto result = fault(reason());
        ::unlink(beside.c_str());
        return result;
    }
    // The new name has reached the disk only when its folder has.
    const fs::path parent = target.parent_path();
    const int folder = ::open(parent.empty() ? "." : parent.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (folder >= 0) {
        (void)::fsync(folder);
        ::close(folder);
    }
    return std::nullopt;
}

}  // namespace lidlift::cli
