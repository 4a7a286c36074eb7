// The text of a call record (rules/CALLS.md) -> the call.
#pragma once

#include "engine/call_record.hpp"

#include <string>
#include <string_view>

namespace lidlift {

/// Reads one call. Names of signs, causes, steps and cautions are read as they stand: whether a rule base knows them is looked
/// at when the call goes on, since it may have been recorded under another. All mistakes go to `complaints`.
[[nodiscard]] CallRecord read_call(std::string_view text, const std::string& file, Complaints& complaints);

/// The words in which a record says why the asking ended; the first is the first reason of the interview, and so on.
[[nodiscard]] const std::vector<std::string>& stop_words();

}  // namespace lidlift
