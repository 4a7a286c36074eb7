// A value, or the reason why there is none; how the engine reports what it cannot do without exceptions.
#pragma once

#include <string>
#include <utility>
#include <variant>

namespace lidlift {

/// Why something could not be done, in a sentence for the person, and the column (1-based, in code points) it is about; 0:
/// none.
struct Fault {
    std::string text;
    int column = 0;
    friend bool operator==(const Fault&, const Fault&) = default;
};

/// Either a T or a Fault. Ask with `if (outcome)`, then use `*outcome` or `outcome.fault()`.
template <class T>
class [[nodiscard]] Outcome {
public:
    Outcome(T value) : held_(std::in_place_index<0>, std::move(value)) {}
    Outcome(Fault fault) : held_(std::in_place_index<1>, std::move(fault)) {}

    explicit operator bool() const { return held_.index() == 0; }
    const T& operator*() const& { return std::get<0>(held_); }
    T& operator*() & { return std::get<0>(held_); }
    T&& operator*() && { return std::get<0>(std::move(held_)); }
    const T* operator->() const { return &std::get<0>(held_); }
    T* operator->() { return &std::get<0>(held_); }
    const Fault& fault() const { return std::get<1>(held_); }

private:
    std::variant<T, Fault> held_;
};

}  // namespace lidlift
