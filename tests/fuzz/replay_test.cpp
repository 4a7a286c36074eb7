// The corpora of the fuzzers, replayed: what was found once is never lost again.
#include "tests/catch.hpp"
#include "tests/cli/program.hpp"
#include "tests/fuzz/targets.hpp"

#include <filesystem>
#include <string>
#include <vector>

namespace fuzz_replay_test {

using namespace lidlift;
namespace fs = std::filesystem;

TEST_CASE("every input that a fuzzer kept is met without a fault", "[fuzz]") {
    struct Row {
        const char* corpus;
        void (*one_input)(std::string_view);
    };
    for (const auto& [corpus, one_input] : std::vector<Row>{{"amounts", fuzz::one_amount},
                                                            {"answer_files", fuzz::one_answer_file},
                                                            {"call_records", fuzz::one_call_record},
                                                            {"command_lines", fuzz::one_command_line},
                                                            {"conditions", fuzz::one_condition},
                                                            {"json_lines", fuzz::one_file_of_lines},
                                                            {"rule_files", fuzz::one_rule_file},
                                                            {"stories", fuzz::one_story},
                                                            {"tank_records", fuzz::one_tank_record}}) {
        std::size_t replayed = 0;
        for (const auto& entry : fs::directory_iterator(fs::path(LIDLIFT_TESTS_FOLDER) / "fuzz/corpus" / corpus)) {
            CAPTURE(entry.path().string());
            const std::string text = test::file_text(entry.path().string());
            CHECK_NOTHROW(one_input(text));
            ++replayed;
        }
        CAPTURE(corpus);
        CHECK(replayed >= 10);
    }
}

}  // namespace fuzz_replay_test
