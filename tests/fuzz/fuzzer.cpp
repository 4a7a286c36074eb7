// One libFuzzer program; LIDLIFT_FUZZ_TARGET is the function that is fuzzed.
#include "tests/fuzz/targets.hpp"

#include <cstddef>
#include <cstdint>

/// What is made once, such as the default rule base, is made before any input is timed.
extern "C" int LLVMFuzzerInitialize(int*, char***) {
    lidlift::fuzz::LIDLIFT_FUZZ_TARGET({});
    return 0;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size > lidlift::fuzz::longest_input) return -1;
    // A fault throws, which ends the program, and libFuzzer keeps the input.
    lidlift::fuzz::LIDLIFT_FUZZ_TARGET({reinterpret_cast<const char*>(data), size});
    return 0;
}
