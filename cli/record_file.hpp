// A tank's record on the disk: read and replaced so that nobody ever finds half of it, and nobody's entry is lost
// (rules/TANKS.md section 5).
#pragma once

#include "engine/outcome.hpp"

#include <chrono>
#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace lidlift::cli {

/// For tests: called before each step on the disk with its name; returns 0, or the errno with which the step is to fail.
/// Steps: lock, clean, create, write, own, sync, close, compare, name, sync folder.
using DiskTrial = std::function<int(std::string_view step)>;

/// Holds the lock on the record's folder while it lives. The lock (flock) goes with the process, however that ends.
class RecordFile {
public:
    /// Follows links, waits for the lock at most `patience`, and takes away what a killed writer left beside the record. Fault:
    /// what is in the way.
    [[nodiscard]] static Outcome<RecordFile> open(const std::string& path, std::chrono::milliseconds patience,
                                                  DiskTrial trial = {});

    RecordFile(RecordFile&& other) noexcept;
    RecordFile& operator=(RecordFile&& other) noexcept;
    RecordFile(const RecordFile&) = delete;
    RecordFile& operator=(const RecordFile&) = delete;
    ~RecordFile();

    /// Is there anything at the path?
    [[nodiscard]] bool exists() const;
    /// The whole text, which `replace` then expects to find there still.
    [[nodiscard]] Outcome<std::string> read(std::size_t limit);
    /// Puts `text` in the place of what was read. True when it is there and on the disk; false when another program changed
    /// the record since it was read: nothing was written then. Fault: why it could not be written; the record is as it was,
    /// unless the fault says otherwise.
    [[nodiscard]] Outcome<bool> replace(const std::string& text);
    /// Writes a record where there is none. Fault as with `replace`.
    [[nodiscard]] std::optional<Fault> create(const std::string& text);

private:
    RecordFile(std::string path, std::string folder, std::string name, DiskTrial trial);

    [[nodiscard]] Fault fault(const std::string& why) const;
    [[nodiscard]] bool refused(std::string_view step) const;
    [[nodiscard]] std::optional<Fault> take_lock(std::chrono::milliseconds patience);
    [[nodiscard]] std::optional<Fault> write_beside(const std::string& text, bool like_the_record) const;
    [[nodiscard]] std::optional<Fault> give_name(bool replacing) const;
    void clean() const;

    std::string path_;    ///< as the user gave it, for messages
    std::string folder_;  ///< where the record itself is, links followed
    std::string name_;    ///< in that folder
    std::string beside_;  ///< name of the file that is to take the record's place
    DiskTrial trial_;
    int folder_file_ = -1;
    std::string text_;  ///< as read
};

}  // namespace lidlift::cli
