// A word without its ending of number or tense: "climbing", "climbs" and "climbed" are all "climb". (libstemmer, English)
#pragma once

#include <string>
#include <string_view>

namespace lidlift::hearing {

/// The stem of a word in lower case. Only endings of number and tense fall ("-s", "-ed", "-ing"); a word whose ending makes
/// another thing of it ("bedding", "castings", "leaves", "hardly", "handful") stands for itself, and so does a short word.
[[nodiscard]] std::string stem_of(std::string_view word);

}  // namespace lidlift::hearing
