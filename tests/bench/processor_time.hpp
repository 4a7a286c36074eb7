// Time for which the processor worked for this thread, so that other work on the machine counts as little as possible.
#pragma once

#include <ctime>

namespace lidlift::bench {

[[nodiscard]] inline double processor_milliseconds() {
    timespec now = {};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) * 1e-6;
}

/// What `work` takes.
template <class Work>
[[nodiscard]] double milliseconds_of(const Work& work) {
    const double begin = processor_milliseconds();
    work();
    return processor_milliseconds() - begin;
}

}  // namespace lidlift::bench
