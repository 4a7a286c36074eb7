// Work for many threads whose results are taken in the order in which it was given.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <exception>
#include <functional>
#include <mutex>
#include <optional>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

namespace lidlift::cli {

/// One thread gives and takes; the others work. No more than a few pieces are under way, so the memory stays the same however
/// much there is to do.
template <class Piece, class Result>
class InOrder {
public:
    /// `work` is called by many threads at once.
    InOrder(std::size_t threads, std::function<Result(const Piece&)> work) : work_(std::move(work)), most_(2 * threads + 2) {
        for (std::size_t i = 0; i < threads; ++i) {
            try {
                workers_.emplace_back([this] { serve(); });
            } catch (const std::system_error&) {
                if (workers_.empty()) throw;  // fewer threads are slower, no more
                break;
            }
        }
    }
    ~InOrder() {
        {
            const std::lock_guard lock(mutex_);
            ending_ = true;
        }
        given_.notify_all();
        for (std::thread& worker : workers_) worker.join();
    }
    InOrder(const InOrder&) = delete;
    InOrder& operator=(const InOrder&) = delete;

    [[nodiscard]] bool full() const { return under_way_.size() == most_; }
    [[nodiscard]] bool empty() const { return under_way_.empty(); }

    /// Only while it is not full.
    void give(Piece piece) {
        {
            const std::lock_guard lock(mutex_);
            under_way_.push_back({std::move(piece), std::nullopt, nullptr, false});
        }
        given_.notify_one();
    }

    /// The result of the oldest piece, once it is there; what its work threw is thrown here. Only while it is not empty.
    [[nodiscard]] Result take() {
        std::unique_lock lock(mutex_);
        done_.wait(lock, [&] { return under_way_.front().done; });
        Slot oldest = std::move(under_way_.front());
        under_way_.pop_front();
        --next_;
        lock.unlock();
        if (oldest.thrown) std::rethrow_exception(oldest.thrown);
        return std::move(*oldest.result);
    }

private:
    struct Slot {
        Piece piece;
        std::optional<Result> result;
        std::exception_ptr thrown;
        bool done = false;
    };

    void serve() {
        std::unique_lock lock(mutex_);
        while (true) {
            given_.wait(lock, [&] { return ending_ || next_ < under_way_.size(); });
            if (ending_) return;
            Slot& slot = under_way_[next_++];  // stays where it is: a deque moves nothing when its ends change
            lock.unlock();
            try {
                slot.result.emplace(work_(slot.piece));
            } catch (...) {
                slot.thrown = std::current_exception();
            }
            lock.lock();
            slot.done = true;
            done_.notify_one();
        }
    }

    std::function<Result(const Piece&)> work_;
    const std::size_t most_;
    std::mutex mutex_;
    std::condition_variable given_;
    std::condition_variable done_;
    std::deque<Slot> under_way_;
    std::size_t next_ = 0;  ///< the first that nobody works on yet
    bool ending_ = false;
    std::vector<std::thread> workers_;
};

}  // namespace lidlift::cli
