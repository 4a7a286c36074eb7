// lidlift log: adds what was done, read or seen to a tank's record.
#pragma once

#include "cli/session.hpp"

#include <string>
#include <vector>

namespace lidlift::cli {

struct LogOptions {
    std::vector<std::string> words;  ///< "added 3 buckets kitchen_waste did "turned it""
    std::string tank;                ///< the record's file
    std::string bay;
    std::string on;  ///< a day; empty: today
    std::string note;
    std::string wait;    ///< seconds for others to finish; empty: the usual
    bool begin = false;  ///< a record for a tank that has none yet; what follows goes with it
    std::string name;
    std::string inside;  ///< "10 ft x 6 ft x 2.5 ft"
    std::string bays;    ///< "left,right"
    std::string wall;
    std::string worms;
    std::string bucket;
    std::string barrow;
};

[[nodiscard]] int log(const Options& options, const LogOptions& log_options);

}  // namespace lidlift::cli
