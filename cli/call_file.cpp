#include "cli/call_file.hpp"

#include "cli/files.hpp"
#include "engine/yaml_tree.hpp"

#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <random>
#include <system_error>
#include <unistd.h>
#include <utility>

namespace lidlift::cli {
namespace {

namespace fs = std::filesystem;

/// "call-2026-03-09-140512-7f3a90c1.yaml": day, time, and a part that another desk's call of the same second does not share.
std::string new_name(Moment now) {
    std::string name = "call-";
    for (const char c : to_text(now))
        if (c != ':') name += c == ' ' ? '-' : c;
    name += '-';
    std::random_device dice;
    std::uint32_t number = dice();
    for (int i = 0; i < 8; ++i, number >>= 4) name += "0123456789abcdef"[number & 15];
    return name + ".yaml";
}

/// Makes a file that was not there before. Returns the errno of what hindered it; 0: it is made.
int make(const std::string& path) {
    const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file < 0) return errno;
    ::close(file);
    return 0;
}

Outcome<std::string> make_in(const fs::path& folder, Moment now) {
    constexpr int attempts = 100;
    int why = 0;
    for (int i = 0; i < attempts; ++i) {
        const std::string path = (folder / new_name(now)).string();
        why = make(path);
        if (why == 0) return path;
        if (why != EEXIST) break;
    }
    return Fault{"cannot make a call record in '" + folder.string() + "': " + std::strerror(why), 0};
}

}  // namespace

Outcome<CallFile> CallFile::open(const std::string& path, Moment now) {
    std::error_code error;
    if (fs::is_directory(path, error)) {
        auto made = make_in(path, now);
        if (!made) return made.fault();
        return CallFile(std::move(*made), {});
    }
    if (fs::exists(path, error)) {
        auto text = read_file(path, largest_file);
        if (!text) return text.fault();
        return CallFile(path, std::move(*text));
    }
    if (const int why = make(path); why != 0)
        return Fault{"cannot make the call record '" + path + "': " + std::strerror(why), 0};
    return CallFile(path, {});
}

std::optional<Fault> CallFile::write(const std::string& text, Moment now) {
    const auto there = read_file(path_, largest_file);
    if (there && *there != text_) {
        auto made = make_in(fs::path(path_).parent_path().empty() ? fs::path(".") : fs::path(path_).parent_path(), now);
        if (!made) return made.fault();
        path_ = std::move(*made);
        moved_ = true;
    }
    if (auto fault = write_file(path_, text)) return fault;
    text_ = text;
    return std::nullopt;
}

}  // namespace lidlift::cli
