// Strong Kleene logic: what nobody looked at is unknown, and unknown is never no.
// Tables: Kleene, Introduction to Metamathematics (1952) 332-335.
#pragma once

namespace lidlift {

enum class Truth : signed char { no = -1, unknown = 0, yes = 1 };

[[nodiscard]] constexpr Truth operator!(Truth a) { return static_cast<Truth>(-static_cast<signed char>(a)); }
[[nodiscard]] constexpr Truth operator&(Truth a, Truth b) { return a < b ? a : b; }
[[nodiscard]] constexpr Truth operator|(Truth a, Truth b) { return a < b ? b : a; }
[[nodiscard]] constexpr Truth truth(bool known) { return known ? Truth::yes : Truth::no; }

/// At least `wanted` of `count` things hold, of which `yes` surely do and `no` surely do not.
[[nodiscard]] constexpr Truth at_least(int wanted, int count, int yes, int no) {
    if (yes >= wanted) return Truth::yes;
    if (count - no < wanted) return Truth::no;
    return Truth::unknown;
}

}  // namespace lidlift
