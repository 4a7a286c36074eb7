// What is fuzzed: each target reads one text from outside and holds it to what must be true of every such text. A source
// a target; tests/fuzz/fuzzer.cpp makes a libFuzzer program of each, tests/fuzz/replay_test.cpp replays its corpus.
#pragma once

#include <string_view>

namespace lidlift::fuzz {

void one_condition(std::string_view text);
void one_amount(std::string_view text);
void one_rule_file(std::string_view text);
void one_tank_record(std::string_view text);
void one_call_record(std::string_view text);
void one_story(std::string_view text);
void one_answer_file(std::string_view text);
/// Lines of told beds, as `why --cases` takes them.
void one_file_of_lines(std::string_view text);
/// Several arguments, one a line: sign=value, words of a mixture, words of an entry.
void one_command_line(std::string_view text);

/// Longer texts say nothing new and cost time; the limits of the readers have tests of their own.
inline constexpr std::size_t longest_input = 64 * 1024;

}  // namespace lidlift::fuzz
