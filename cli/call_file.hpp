// The file of one call: made under a name that no other desk takes, and renewed whole after every answer.
#pragma once

#include "engine/moment.hpp"
#include "engine/outcome.hpp"

#include <optional>
#include <string>

namespace lidlift::cli {

class CallFile {
public:
    /// A file that is there is read; one that is not is made; in a folder a new one is made. Fault: why neither can be.
    [[nodiscard]] static Outcome<CallFile> open(const std::string& path, Moment now);

    [[nodiscard]] const std::string& path() const { return path_; }
    /// What stood in it; empty for a new one.
    [[nodiscard]] const std::string& text() const { return text_; }

    /// Puts `text` into the file, whole or not at all. Where somebody else changed the file since it was last read or written,
    /// theirs is left alone and ours goes into a new file beside it: then `path` is another, and `moved` says so once.
    [[nodiscard]] std::optional<Fault> write(const std::string& text, Moment now);
    [[nodiscard]] bool moved() { return std::exchange(moved_, false); }

private:
    explicit CallFile(std::string path, std::string text) : path_(std::move(path)), text_(std::move(text)) {}

    std::string path_;
    std::string text_;
    bool moved_ = false;
};

}  // namespace lidlift::cli
