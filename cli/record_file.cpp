#include "cli/record_file.hpp"

#include "engine/quantity.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <sys/file.h>
#include <sys/stat.h>
#include <sys/xattr.h>
#include <thread>
#include <unistd.h>
#include <utility>

namespace lidlift::cli {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t piece = 64 * 1024;  ///< bytes written at a time
constexpr std::chrono::milliseconds shortest_nap{1};
constexpr std::chrono::milliseconds longest_nap{20};

/// A file that is closed when it goes.
class OpenFile {
public:
    explicit OpenFile(int file) : file_(file) {}
    OpenFile(const OpenFile&) = delete;
    OpenFile& operator=(const OpenFile&) = delete;
    ~OpenFile() {
        const int error = errno;
        if (file_ >= 0) ::close(file_);
        errno = error;
    }
    [[nodiscard]] int get() const { return file_; }
    [[nodiscard]] bool close() { return ::close(std::exchange(file_, -1)) == 0; }

private:
    int file_;
};

/// The last error in words, with what it means for the person where that is not plain.
std::string reason() {
    const std::string text = std::strerror(errno);
    switch (errno) {
        case ENOSPC:
        case EDQUOT:
        case EFBIG:
            return "there is no room for it on the disk (" + text + ")";
        case EROFS:
        case EACCES:
        case EPERM:
            return "writing is not allowed there (" + text + ")";
        default:
            return text;
    }
}

bool write_all(int file, std::string_view text) {
    while (!text.empty()) {
        const ssize_t count = ::write(file, text.data(), std::min(text.size(), piece));
        if (count < 0 && errno == EINTR) continue;
        if (count <= 0) return false;
        text.remove_prefix(static_cast<std::size_t>(count));
    }
    return true;
}

/// Everything in an open file, up to a byte more than `limit`; none when it cannot be read.
std::optional<std::string> read_all(int file, std::size_t limit) {
    std::string text;
    while (text.size() <= limit) {
        const std::size_t had = text.size();
        text.resize(std::min(had + piece, limit + 1));
        const ssize_t count = ::read(file, text.data() + had, text.size() - had);
        text.resize(had + static_cast<std::size_t>(std::max<ssize_t>(count, 0)));
        if (count < 0 && errno == EINTR) continue;
        if (count < 0) return std::nullopt;
        if (count == 0) break;
    }
    return text;
}

/// The access list of the record, where it has one, for the file that takes its place; false: it cannot be given to it.
bool copy_access_list(int record, int file) {
    constexpr const char* access_list = "system.posix_acl_access";
    std::array<char, 4096> list;
    const ssize_t size = ::fgetxattr(record, access_list, list.data(), list.size());
    if (size < 0) return errno == ENODATA || errno == ENOTSUP;
    return ::fsetxattr(file, access_list, list.data(), static_cast<std::size_t>(size), 0) == 0;
}

/// Owner, group, permissions and access list of the record for the file that takes its place. A group that may not be given
/// to it gets no more than everybody has; nor does any group where the access list cannot be given, since the permissions of
/// the group then stand for those of all who are listed.
bool make_alike(int file, int record_file) {
    struct stat record {};
    struct stat own {};
    if (::fstat(record_file, &record) != 0 || ::fstat(file, &own) != 0) return false;
    const mode_t mode = record.st_mode & 07777;
    const mode_t without_group = mode & (~static_cast<mode_t>(S_IRWXG) | ((mode & S_IRWXO) << 3));
    bool group_kept = true;
    if (own.st_uid != record.st_uid || own.st_gid != record.st_gid)
        group_kept =
            ::fchown(file, record.st_uid, record.st_gid) == 0 || ::fchown(file, static_cast<uid_t>(-1), record.st_gid) == 0;
    if (::fchmod(file, group_kept ? mode : without_group) != 0) return false;
    return (group_kept && copy_access_list(record_file, file)) || ::fchmod(file, without_group) == 0;
}

}  // namespace

RecordFile::RecordFile(std::string path, std::string folder, std::string name, DiskTrial trial)
    : path_(std::move(path)),
      folder_(std::move(folder)),
      name_(std::move(name)),
      beside_("." + name_ + ".lidlift-new"),
      trial_(std::move(trial)) {}

RecordFile::RecordFile(RecordFile&& other) noexcept
    : path_(std::move(other.path_)),
      folder_(std::move(other.folder_)),
      name_(std::move(other.name_)),
      beside_(std::move(other.beside_)),
      trial_(std::move(other.trial_)),
      folder_file_(std::exchange(other.folder_file_, -1)),
      text_(std::move(other.text_)) {}

RecordFile& RecordFile::operator=(RecordFile&& other) noexcept {
    RecordFile taken(std::move(other));
    std::swap(path_, taken.path_);
    std::swap(folder_, taken.folder_);
    std::swap(name_, taken.name_);
    std::swap(beside_, taken.beside_);
    std::swap(trial_, taken.trial_);
    std::swap(folder_file_, taken.folder_file_);
    std::swap(text_, taken.text_);
    return *this;
}

RecordFile::~RecordFile() {
    if (folder_file_ >= 0) ::close(folder_file_);  // and with it the lock
}

Fault RecordFile::fault(const std::string& why) const { return {"cannot write '" + path_ + "': " + why, 0}; }

bool RecordFile::refused(std::string_view step) const {
    const int error = trial_ ? trial_(step) : 0;
    if (error != 0) errno = error;
    return error != 0;
}

Outcome<RecordFile> RecordFile::open(const std::string& path, std::chrono::milliseconds patience, DiskTrial trial) {
    const auto cannot = [&](const std::string& why) { return Fault{"cannot write '" + path + "': " + why, 0}; };
    std::error_code error;
    fs::path target = path;
    const auto status = fs::status(target, error);
    if (fs::is_directory(status)) return cannot("it is a folder");
    if (fs::exists(status)) {
        if (!fs::is_regular_file(status)) return cannot("it is not a regular file");
        target = fs::canonical(target, error);
        if (error) return cannot(error.message());
    } else if (error && status.type() != fs::file_type::not_found) {
        return cannot(error.message());
    } else if (fs::is_symlink(fs::symlink_status(target, error))) {
        return cannot("it is a link to nothing");
    }
    if (target.filename().empty()) return cannot("it is no file's name");
    const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
    RecordFile record(path, folder.string(), target.filename().string(), std::move(trial));
    if (auto fault = record.take_lock(patience)) return std::move(*fault);
    record.clean();
    return record;
}

std::optional<Fault> RecordFile::take_lock(std::chrono::milliseconds patience) {
    folder_file_ = ::open(folder_.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (folder_file_ < 0) return fault("its folder cannot be opened (" + std::string(std::strerror(errno)) + ")");
    const auto end = std::chrono::steady_clock::now() + patience;
    for (auto nap = shortest_nap;; nap = std::min(2 * nap, longest_nap)) {
        if (!refused("lock") && ::flock(folder_file_, LOCK_EX | LOCK_NB) == 0) return std::nullopt;
        if (errno == EINTR) continue;
        if (errno != EWOULDBLOCK)
            return fault("its folder cannot be locked against others who write (" + std::string(std::strerror(errno)) + ")");
        if (std::chrono::steady_clock::now() >= end) {
            const auto seconds = std::chrono::duration<double>(patience).count();
            return fault("somebody else is writing in its folder, and was not done within " + number_to_text(seconds) +
                         " seconds; try again");
        }
        std::this_thread::sleep_for(nap);
    }
}

/// Nobody else can be writing it, since the lock is ours.
void RecordFile::clean() const {
    if (!refused("clean")) (void)::unlinkat(folder_file_, beside_.c_str(), 0);
}

bool RecordFile::exists() const {
    struct stat status {};
    return ::fstatat(folder_file_, name_.c_str(), &status, AT_SYMLINK_NOFOLLOW) == 0;
}

Outcome<std::string> RecordFile::read(std::size_t limit) {
    const auto cannot = [&] { return Fault{"cannot read '" + path_ + "': " + std::strerror(errno), 0}; };
    // Never to wait for whoever put a pipe where the record was.
    OpenFile file(::openat(folder_file_, name_.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC));
    if (file.get() < 0) return cannot();
    auto text = read_all(file.get(), limit);
    if (!text) return cannot();
    if (text->size() > limit) return Fault{"'" + path_ + "' is larger than " + std::to_string(limit / 1024) + " KiB", 0};
    text_ = *text;
    return std::move(*text);
}

/// The new text in a file of its own, whole and on the disk.
std::optional<Fault> RecordFile::write_beside(const std::string& text, bool like_the_record) const {
    OpenFile record(like_the_record ? ::openat(folder_file_, name_.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC)
                                    : -1);
    if (like_the_record && record.get() < 0) return fault(reason());
    const mode_t mode = like_the_record ? 0600 : 0666;
    OpenFile file(refused("create")
                      ? -1
                      : ::openat(folder_file_, beside_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, mode));
    if (file.get() < 0) return fault(reason());
    const std::size_t half = text.size() / 2;
    const std::string_view whole = text;
    const bool good = !refused("write") && write_all(file.get(), whole.substr(0, half)) && !refused("write") &&
                      write_all(file.get(), whole.substr(half)) && !refused("own") &&
                      (!like_the_record || make_alike(file.get(), record.get())) && !refused("sync") &&
                      ::fsync(file.get()) == 0 && !refused("close") && file.close();
    if (good) return std::nullopt;
    auto result = fault(reason());
    (void)::unlinkat(folder_file_, beside_.c_str(), 0);
    return result;
}

/// From here on the new text is the record.
std::optional<Fault> RecordFile::give_name(bool replacing) const {
    const bool named =
        !refused("name") && (replacing ? ::renameat(folder_file_, beside_.c_str(), folder_file_, name_.c_str())
                                       : ::linkat(folder_file_, beside_.c_str(), folder_file_, name_.c_str(), 0)) == 0;
    auto result = named ? std::optional<Fault>{} : fault(reason());
    if (!named || !replacing) (void)::unlinkat(folder_file_, beside_.c_str(), 0);
    if (result) return result;
    // The new name has reached the disk only when its folder has. Some file systems cannot sync folders, and need not.
    if (refused("sync folder") || (::fsync(folder_file_) != 0 && errno != EINVAL && errno != ENOTSUP))
        return Fault{"'" + path_ + "' holds the entry now, but it may not outlast a power cut: " + std::strerror(errno), 0};
    return std::nullopt;
}

Outcome<bool> RecordFile::replace(const std::string& text) {
    if (::faccessat(folder_file_, name_.c_str(), W_OK, AT_EACCESS) != 0) return fault(reason());
    if (auto failed = write_beside(text, true)) return std::move(*failed);
    const auto now = [&]() -> std::optional<std::string> {
        if (refused("compare")) return std::nullopt;
        OpenFile file(::openat(folder_file_, name_.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC));
        return file.get() < 0 ? std::nullopt : read_all(file.get(), text_.size());
    }();
    if (now != text_) {
        (void)::unlinkat(folder_file_, beside_.c_str(), 0);
        return false;
    }
    if (auto failed = give_name(true)) return std::move(*failed);
    return true;
}

std::optional<Fault> RecordFile::create(const std::string& text) {
    if (auto failed = write_beside(text, false)) return failed;
    return give_name(false);
}

}  // namespace lidlift::cli
